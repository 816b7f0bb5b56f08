import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Caution } from '../kit/Caution.tsx'
import { Note } from '../kit/Note.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Progress } from '../kit/Progress.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { CannotSayList } from './CannotSayList.tsx'
import type { GoTo } from './PredictedFace.tsx'
import type { WhatIfInHand } from './use-what-if.ts'
import { changeWords } from './what-if-draft.ts'
import { WhatIfForm } from './WhatIfForm.tsx'
import { WhatIfResult } from './WhatIfResult.tsx'

export interface WhatIfPartProps {
  readonly system: WaterSystem
  readonly whatIf: WhatIfInHand
  readonly onPlace: (id: string) => void
  readonly onHover: (id: string | undefined) => void
  readonly onGoTo: (goTo: GoTo) => void
}

/** Something changed, the water worked out again, and both side by side. Nothing of it goes into the description. */
export function WhatIfPart(props: WhatIfPartProps): ReactNode {
  const { system, whatIf, onGoTo } = props
  const { changes, setChanges, state, start, refused } = whatIf
  const { units } = usePreferences()
  return (
    <Section title="What if something were changed?">
      <WhatIfForm system={system} onAdd={(change) => setChanges([...changes, change])} />
      {changes.length > 0 && (
        <>
          <ul className="what-if-changes" aria-label="Changes to try">
            {changes.map((change, at) => {
              const words = changeWords(change, { system, units })
              return (
                <li key={words}>
                  <span>{words}</span>
                  <Button
                    kind="text"
                    name={`Leave out: ${words}`}
                    onPress={() => setChanges(changes.filter((_, index) => index !== at))}
                  >
                    Leave out
                  </Button>
                </li>
              )
            })}
          </ul>
          <Caution>
            Only worked out, nothing is changed. Set points, flows and pipes are altered by whoever answers for the
            system, under the local code; hotter water scalds.
          </Caution>
          <ButtonRow>
            <Button kind="primary" onPress={start} disabled={state.kind === 'running'}>
              Work it out with these
            </Button>
          </ButtonRow>
        </>
      )}
      <Under whatIf={whatIf} />
      {refused?.kind === 'issues' && <ProblemList problems={refused.issues} title="These changes can’t be made" />}
      {refused?.kind === 'cannot-say' && (
        <CannotSayList
          reasons={refused.reasons}
          system={system}
          onGoTo={onGoTo}
          title="With these nothing can be said"
        />
      )}
      {whatIf.changed !== undefined && state.kind === 'done' && <WhatIfResult {...props} changed={whatIf.changed} />}
    </Section>
  )
}

function Under({ whatIf: { state, stop, start } }: { readonly whatIf: WhatIfInHand }): ReactNode {
  if (state.kind === 'running')
    return <Progress label="Working out the changed water" fraction={state.fraction} onCancel={stop} />
  if (state.kind !== 'stopped') return null
  if (state.failed === undefined) return <p className="quiet">Stopped.</p>
  return (
    <Note kind="bad">
      It could not be worked out: {state.failed}{' '}
      <Button kind="text" onPress={start}>
        Try again
      </Button>
    </Note>
  )
}
