import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { type ReactNode, useEffect, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Note } from '../kit/Note.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { localInstant } from '../store/local-time.ts'
import { useNow } from '../store/use-now.ts'
import { Refused } from '../sync/server-port.ts'
import { type ConsignmentLink, linksOf, linkState, makeLink, revokeLink } from './consignment-links.ts'

const DAYS = 14

/** Lets the laboratory write the receipt itself: a link to this box alone, made and taken back here. */
export function ReceiptLinks({ code, received }: { readonly code: string; readonly received: boolean }): ReactNode {
  const { id } = useInvestigation()
  const nowMs = useNow()
  const [links, setLinks] = useState<readonly ConsignmentLink[]>([])
  const [url, setUrl] = useState<string>()
  const [trouble, setTrouble] = useState<string>()
  const [round, setRound] = useState(0)
  useEffect(() => {
    let wanted = true
    linksOf(id).then(
      (found) => {
        if (wanted) setLinks(found.filter(({ consignment }) => consignment === code))
      },
      () => undefined,
    )
    return () => {
      wanted = false
    }
    // oxlint-disable-next-line react/exhaustive-effect-dependencies -- asked again after each act, and when the receipt came
  }, [id, code, round, received])
  const act = async (work: () => Promise<void>): Promise<void> => {
    setTrouble(undefined)
    try {
      await work()
      setRound((one) => one + 1)
    } catch (error) {
      setTrouble(error instanceof Refused ? error.message : 'The server can’t be reached; links are made there.')
    }
  }
  const make = (): Promise<void> => act(async () => setUrl((await makeLink(id, { consignment: code, days: DAYS })).url))
  const open = links.filter((link) => linkState(link, nowMs) === 'open')
  return (
    <div className="stack">
      {!received && (
        <div>
          <Button onPress={() => void make()} name={`Make a link for the laboratory, ${code}`}>
            Make a link for the laboratory
          </Button>
        </div>
      )}
      {url !== undefined && !received && <NewLink url={url} />}
      {trouble !== undefined && <Note kind="warn">{trouble}</Note>}
      {links.length > 0 && (
        <ul className="receipt-links">
          {links.map((link) => (
            <li key={link.link}>
              <span>
                Link {link.link}, {linkState(link, nowMs)}
                <span className="faint">
                  {' '}
                  made {shown(link.made)} by {link.by}, ends {shown(link.expires)}
                </span>
              </span>
              {open.includes(link) && (
                <Button
                  kind="text"
                  name={`Take back link ${link.link}`}
                  onPress={() => void act(() => revokeLink(id, link.link))}
                >
                  Take back
                </Button>
              )}
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}

function NewLink({ url }: { readonly url: string }): ReactNode {
  const [copied, setCopied] = useState(false)
  return (
    <div className="stack">
      <TextField
        label="Send this to the laboratory"
        hint={`It opens this box only, for ${DAYS} days, and is shown once. Whoever has it can write the receipt.`}
        value={url}
        onChange={() => undefined}
        width="full"
        mono
      />
      <ButtonRow>
        <Button
          onPress={() =>
            void navigator.clipboard.writeText(url).then(
              () => setCopied(true),
              () => setCopied(false),
            )
          }
        >
          {copied ? 'Copied' : 'Copy'}
        </Button>
      </ButtonRow>
    </div>
  )
}

const shown = (instant: string): string => wallClock(localInstant(Date.parse(instant)))
