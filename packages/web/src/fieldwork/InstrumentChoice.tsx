import { instrumentsFor, MEASURED_BY } from '@rillmark/casebook/fieldwork/instruments.ts'
import type { ReadingQuantity } from '@rillmark/casebook/fieldwork/kinds.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'
import { Select } from '../kit/Select.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { DraftHandle } from './drafts.ts'
import { InstrumentDialog, QUANTITY_WORDS } from './InstrumentDialog.tsx'
import { useStop, useWriting } from './stop-tools.tsx'
import { localDay } from '../store/local-time.ts'

/** The instrument a quantity is read with today: the one chosen last, else the first without objection. */
export function useInstrument(quantity: ReadingQuantity, day: DraftHandle) {
  const { state } = useInvestigation()
  const choices = instrumentsFor(state, { quantity, on: localDay() })
  const chosen = choices.find(({ instrument }) => instrument.code === day.get(`instrument ${quantity}`)) ?? choices[0]
  return { choices, chosen }
}

/** Which instrument, what speaks against it, and a way to register one on the spot. */
export function InstrumentChoice(props: { readonly quantity: ReadingQuantity; readonly day: DraftHandle }): ReactNode {
  const { quantity, day } = props
  const { state } = useInvestigation()
  const { choices, chosen } = useInstrument(quantity, day)
  const [registering, setRegistering] = useState(false)
  return (
    <div className="field-instrument">
      {choices.length > 0 && (
        <Select
          label="Read with"
          value={chosen?.instrument.code ?? ''}
          onChange={(code) => day.set({ [`instrument ${quantity}`]: code })}
          choices={choices.map(({ instrument, against }) => ({
            id: instrument.code,
            label: `${instrument.code}, ${instrument.kind}${against === undefined ? '' : ' (look again)'}`,
          }))}
        />
      )}
      <Button onPress={() => setRegistering(true)}>
        {choices.length === 0 ? 'Register an instrument' : 'Another instrument'}
      </Button>
      {choices.length === 0 && <p className="quiet">{noneWords(state, quantity)}</p>}
      {chosen?.against !== undefined && <Against code={chosen.instrument.code} against={chosen.against} />}
      {registering && (
        <InstrumentDialog
          quantity={quantity}
          onClose={(code) => {
            if (code !== undefined) day.set({ [`instrument ${quantity}`]: code })
            setRegistering(false)
          }}
        />
      )}
    </div>
  )
}

/** Why there is nothing to choose: a kit in hand that measures something else is named. */
function noneWords({ fieldwork }: InvestigationState, quantity: ReadingQuantity): string {
  const others = [...fieldwork.instruments.values()].filter(({ body }) => MEASURED_BY[body.kind].includes(quantity))
  if (others.length === 0) return 'None is registered that measures this.'
  const told = others.map(
    ({ body }) => `${body.code} measures ${body.measures.map((each) => QUANTITY_WORDS[each]).join(' and ')} only`,
  )
  return `${told.join(', ')}; this step asks for ${QUANTITY_WORDS[quantity]}.`
}

function Against({ code, against }: { readonly code: string; readonly against: string }): ReactNode {
  const { at, plan } = useStop()
  const { write, busy } = useWriting()
  const told = plan.visit?.deviations.some(({ body }) => body.reason === 'calibration out of date') ?? false
  const calibration = against.startsWith('calibration')
  if (calibration && told) return <Note>Its calibration is over; that is recorded for this stop.</Note>
  return (
    <>
      <Note kind="warn">
        {code}: {against}.
      </Note>
      {calibration && (
        <Button
          busy={busy}
          onPress={() =>
            void write('deviation.recorded', { ...at, reason: 'calibration out of date', text: `${code}: ${against}` })
          }
        >
          Use it all the same and record that
        </Button>
      )}
    </>
  )
}
