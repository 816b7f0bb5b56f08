import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { memo, type ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Note } from '../kit/Note.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Progress } from '../kit/Progress.tsx'
import { useDerived } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { CannotSayList } from './CannotSayList.tsx'
import { FitPart } from './FitPart.tsx'
import { GuessesPart } from './GuessesPart.tsx'
import { headline } from './headline.ts'
import { HowWorkedOut } from './HowWorkedOut.tsx'
import type { GoTo, Looking } from './PredictedFace.tsx'
import { RankedTable } from './RankedTable.tsx'
import { RecordPrediction } from './RecordPrediction.tsx'
import type { PredictionInHand, ShownPrediction } from './use-prediction.ts'
import type { WhatIfInHand } from './use-what-if.ts'
import { WhatIfPart } from './WhatIfPart.tsx'

export interface PredictedAsideProps {
  readonly system: WaterSystem
  readonly inHand: PredictionInHand
  readonly whatIf: WhatIfInHand | undefined
  readonly onGoTo: (goTo: GoTo) => void
  readonly onPlace: (id: string) => void
  readonly onHover: (id: string | undefined) => void
  readonly onLook: (change: Partial<Looking>) => void
}

/** The prediction as a whole: asked for, under way, refused with its reasons, or ranked. It does not follow the hour looked at. */
export const PredictedAside = memo(function PredictedAside(props: PredictedAsideProps): ReactNode {
  const { inHand, system, onGoTo } = props
  const { shown, state } = inHand
  const refused = state.kind === 'done' && state.answer.kind === 'cannot-say' ? state.answer.reasons : undefined
  return (
    <>
      {shown === undefined ? <Asking {...props} refused={refused !== undefined} /> : <Head {...props} shown={shown} />}
      <RunPart inHand={inHand} />
      {refused !== undefined && (
        <CannotSayList reasons={refused} system={system} onGoTo={onGoTo} title="What has to be described first" />
      )}
      {shown !== undefined && <Found {...props} shown={shown} />}
    </>
  )
})

/** Before anything was worked out. */
function Asking({ inHand, refused }: PredictedAsideProps & { readonly refused: boolean }): ReactNode {
  const { state, start } = inHand
  return (
    <>
      <PageHead
        title={refused ? 'Too little is described to say' : 'How hot, how old, how disinfected is the water?'}
        name="Predicted · Building"
        lead={
          refused
            ? 'Nothing is shown rather than figures that would mislead.'
            : 'Worked out from the description for every outlet and pipe, over a day that repeats: where it would favour growth, and where to look first.'
        }
      />
      {state.kind !== 'running' && (
        <ButtonRow>
          <Button kind="primary" onPress={start}>
            {refused ? 'Try again' : 'Work out the water'}
          </Button>
        </ButtonRow>
      )}
      {!refused && <Screening />}
    </>
  )
}

export const Screening = (): ReactNode => (
  <Note>
    A screening model. It says where to look first, not what is there: what was described wrongly is predicted wrongly.
    Only readings and samples tell.
  </Note>
)

/** Says that values of a fit were taken, and whose. */
function FittedNote({ entry }: { readonly entry: string }): ReactNode {
  const fit = useDerived((state) => state.building.fits.find(({ id }) => id === entry))
  if (fit === undefined) return null
  const { round, inputs } = fit.body
  return (
    <p className="quiet">
      With {counted(inputs.length, 'value')} fitted to the readings of round {round} in place of those described.
    </p>
  )
}

function Head({ inHand, shown, system }: PredictedAsideProps & { readonly shown: ShownPrediction }): ReactNode {
  const { units } = usePreferences()
  const { title, lead } = headline(system, { conditions: shown.conditions, units })
  const running = inHand.state.kind === 'running'
  return (
    <>
      <PageHead title={title} name="Predicted · Building" lead={lead} />
      {shown.fitted !== undefined && <FittedNote entry={shown.fitted.entry} />}
      {shown.stale && !running && (
        <Note kind="warn">
          The description or the fitted values changed since. <Again start={inHand.start} />
        </Note>
      )}
      {shown.from === 'record' && !shown.stale && !running && (
        <Note>
          From the record, without curves of the day. <Again start={inHand.start} />
        </Note>
      )}
    </>
  )
}

const Again = ({ start }: { readonly start: () => void }): ReactNode => (
  <Button kind="text" onPress={start}>
    Work it out again
  </Button>
)

/** A run under way, stopped or failed. */
function RunPart({ inHand }: { readonly inHand: PredictionInHand }): ReactNode {
  const { state, run, start } = inHand
  if (state.kind === 'running')
    return <Progress label="Working out the water" fraction={state.fraction} onCancel={() => run.stop()} />
  if (state.kind !== 'stopped') return null
  if (state.failed === undefined) return <p className="quiet">Stopped before the day had repeated itself.</p>
  return (
    <Note kind="bad">
      The water could not be worked out: {state.failed} <Again start={start} />
    </Note>
  )
}

function Found(props: PredictedAsideProps & { readonly shown: ShownPrediction }): ReactNode {
  const { shown, system, onGoTo, whatIf } = props
  return (
    <>
      <RankedTable {...props} />
      {whatIf !== undefined && <WhatIfPart {...props} whatIf={whatIf} />}
      <FitPart {...props} />
      <GuessesPart shown={shown} />
      <CannotSayList
        reasons={shown.conditions.cannotSay}
        system={system}
        onGoTo={onGoTo}
        title="Of these nothing can be said"
      />
      <RecordPrediction shown={shown} />
      <HowWorkedOut shown={shown} />
    </>
  )
}
