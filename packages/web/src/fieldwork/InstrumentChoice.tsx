import {
  type Instrument,
  type InstrumentChoice as Choice,
  instrumentsFor,
  MEASURED_BY,
} from '@rillmark/casebook/fieldwork/instruments.ts'
import type { ReadingQuantity } from '@rillmark/casebook/fieldwork/kinds.ts'
import { instrumentRange, instrumentStep } from '@rillmark/casebook/fieldwork/reading-words.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { Note } from '../kit/Note.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { DraftHandle } from './drafts.ts'
import { InstrumentDialog, QUANTITY_WORDS } from './InstrumentDialog.tsx'
import { useStop, useWriting } from './stop-tools.tsx'
import { localDay } from '../store/local-time.ts'

/**
 * The instrument a quantity is read with today: the one chosen for the day; without a choice the only one nothing speaks against, or else
 * none yet.
 */
export function useInstrument(quantity: ReadingQuantity, day: DraftHandle) {
  const { state } = useInvestigation()
  const choices = instrumentsFor(state, { quantity, on: localDay() })
  const wanted = day.get(`instrument ${quantity}`)
  const fit = choices.filter(({ against }) => against === undefined)
  const chosen =
    choices.find(({ instrument }) => instrument.code === wanted) ??
    (fit.length === 1 ? fit[0] : choices.length === 1 ? choices[0] : undefined)
  return { choices, chosen, choose: (code: string) => day.set({ [`instrument ${quantity}`]: code }) }
}

/** Which instrument: chosen once a day, then a line that says which, with what speaks against it and a way to change. */
export function InstrumentChoice(props: { readonly quantity: ReadingQuantity; readonly day: DraftHandle }): ReactNode {
  const { quantity, day } = props
  const { state } = useInvestigation()
  const { choices, chosen, choose } = useInstrument(quantity, day)
  const [open, setOpen] = useState<'choosing' | 'registering'>()
  const close = (code?: string): void => {
    if (code !== undefined) choose(code)
    setOpen(undefined)
  }
  return (
    <div className="field-instrument">
      {chosen === undefined && choices.length > 0 && (
        <>
          <p className="field-label">Which one today?</p>
          <Choices choices={choices} onChoose={choose} />
        </>
      )}
      {chosen !== undefined && <Chosen choice={chosen} />}
      {choices.length > 0 && chosen !== undefined ? (
        <Button onPress={() => setOpen('choosing')}>Another instrument</Button>
      ) : (
        <Button onPress={() => setOpen('registering')}>Register an instrument</Button>
      )}
      {choices.length === 0 && <p className="quiet">{noneWords(state, quantity)}</p>}
      {chosen?.against !== undefined && <Against code={chosen.instrument.code} against={chosen.against} />}
      {open === 'choosing' && (
        <Dialog
          title="Read with"
          open
          onClose={close}
          actions={
            <>
              <Button onPress={() => close()}>Back</Button>
              <Button onPress={() => setOpen('registering')}>Register an instrument</Button>
            </>
          }
        >
          <Choices choices={choices} onChoose={close} />
        </Dialog>
      )}
      {open === 'registering' && <InstrumentDialog quantity={quantity} onClose={close} />}
    </div>
  )
}

/** What an instrument can tell and until when, in one line. */
function aboutIt(
  { kind, rangeMin, rangeMax, unit, resolution, calibrationDue }: Instrument,
  units: DisplayUnits,
): string {
  return [
    kind,
    instrumentRange({ rangeMin, rangeMax, unit }, units),
    `steps of ${instrumentStep({ resolution, unit }, units)}`,
    calibrationDue === undefined ? 'no calibration date' : `calibrated until ${calibrationDue}`,
  ].join(' · ')
}

function Chosen({ choice: { instrument } }: { readonly choice: Choice }): ReactNode {
  const { units } = usePreferences()
  return (
    <p className="field-chosen">
      <span>
        Read with <b>{instrument.code}</b>
      </span>
      <span className="faint">{aboutIt(instrument, units)}</span>
    </p>
  )
}

function Choices(props: { readonly choices: readonly Choice[]; readonly onChoose: (code: string) => void }): ReactNode {
  const { units } = usePreferences()
  return (
    <ul className="field-reasons">
      {props.choices.map(({ instrument, against }) => (
        <li key={instrument.code}>
          <button type="button" className="field-choose" onClick={() => props.onChoose(instrument.code)}>
            <b>{instrument.code}</b>
            <span className="faint">{aboutIt(instrument, units)}</span>
            {against !== undefined && <span className="field-against">Look again: {against}.</span>}
          </button>
        </li>
      ))}
    </ul>
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
