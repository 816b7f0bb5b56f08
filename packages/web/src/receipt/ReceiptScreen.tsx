import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { showRange } from '@rillmark/casebook/units/display.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useEffect, useState } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { localInstant } from '../store/local-time.ts'
import { usePreferences } from '../store/preferences.tsx'
import { ReceiptEntry } from './ReceiptEntry.tsx'
import { type Asked, type OpenedForm, openReceipt } from './receipt-port.ts'
import './receipt.css'

/** The page a laboratory opens by its link: one consignment, to be received. It needs no account and shows nothing else. */
export function ReceiptScreen(): ReactNode {
  const token = useTokenInAddress()
  return (
    <main id="main" className="receipt" tabIndex={-1}>
      <Page>
        <Receipt key={token} token={token} />
      </Page>
    </main>
  )
}

/** What stands after #. Another link opened in the same tab changes nothing else of the address, so the page is not loaded for it. */
function useTokenInAddress(): string {
  const [token, setToken] = useState(tokenInAddress)
  useEffect(() => {
    const read = (): void => setToken(tokenInAddress())
    window.addEventListener('hashchange', read)
    return () => window.removeEventListener('hashchange', read)
  }, [])
  return token
}

const tokenInAddress = (): string => window.location.hash.slice(1)

function Receipt({ token }: { readonly token: string }): ReactNode {
  const [opened, setOpened] = useState<Asked<OpenedForm>>()
  const [round, setRound] = useState(0)
  useEffect(() => {
    let wanted = true
    void openReceipt(token).then((asked) => {
      if (wanted) setOpened(asked)
    })
    return () => {
      wanted = false
    }
    // oxlint-disable-next-line react/exhaustive-effect-dependencies -- asked again once the receipt was sent
  }, [token, round])
  if (opened === undefined) return <p className="quiet">Opening …</p>
  if (opened.kind !== 'ok') return <NoWayIn opened={opened} />
  return <Consignment form={opened.value} token={token} onReceived={() => setRound(round + 1)} />
}

function NoWayIn({ opened }: { readonly opened: Exclude<Asked<OpenedForm>, { kind: 'ok' }> }): ReactNode {
  if (opened.kind === 'unreachable')
    return (
      <EmptyState title="The server can’t be reached">
        <p>Nothing is lost. Open the link again in a moment; it stays good until it ends.</p>
      </EmptyState>
    )
  if (opened.kind === 'refused')
    return (
      <EmptyState title="The server does not take this request">
        <p>The link may still be good. Tell whoever sent it:</p>
        <ul>
          {opened.issues.map(({ path, expected, received }) => (
            <li key={path}>{`${path}: expected ${expected}, received ${received}`}</li>
          ))}
        </ul>
      </EmptyState>
    )
  return (
    <EmptyState title="This link opens nothing">
      <p>It has ended, was taken back, or was not copied whole. Ask the sender for a new one.</p>
    </EmptyState>
  )
}

function Consignment(props: {
  readonly form: OpenedForm
  readonly token: string
  readonly onReceived: () => void
}): ReactNode {
  const { form } = props
  const { units } = usePreferences()
  return (
    <>
      <header className="receipt-head">
        <h1>Receipt of {form.consignment}</h1>
        <p className="quiet">
          {counted(form.samples.length, 'sample')}, {form.container}, brought by {form.from.name}
          {form.transportC !== undefined &&
            `, to be kept at ${showRange([form.transportC.lower, form.transportC.upper], { unit: '°C', units })}`}
        </p>
      </header>
      {form.received === undefined ? <ReceiptEntry {...props} /> : <Received form={form} received={form.received} />}
      <p className="faint">
        This link ends on {shownMoment(form.expires)}. It opens this consignment and nothing else.
      </p>
    </>
  )
}

function Received({
  form,
  received,
}: {
  readonly form: OpenedForm
  readonly received: NonNullable<OpenedForm['received']>
}): ReactNode {
  const noted = received.samples.filter(({ condition }) => condition !== 'accepted')
  return (
    <section className="stack">
      <h2>Received</h2>
      <p>
        By {received.receivedBy.name}, {received.receivedBy.role}, {received.laboratory}, recorded{' '}
        {shownMoment(received.recordedAt)}. Thank you; nothing more is needed. To correct it, tell the sender.
      </p>
      <p>
        {form.samples.length - noted.length} accepted, {noted.length} noted.
      </p>
      {noted.length > 0 && (
        <ul className="receipt-noted">
          {noted.map(({ label, condition, rejected, notes }) => (
            <li key={label}>
              <b className="mono">{label}</b>{' '}
              {[condition, rejected === true ? 'rejected' : 'examined', notes].filter(Boolean).join(', ')}
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}

const shownMoment = (instant: string): string => wallClock(localInstant(Date.parse(instant)))
