import { explainPlace } from '@rillmark/casebook/conditions/explain-place.ts'
import { ABOUT, type Sentence, type SideExplanation } from '@rillmark/casebook/conditions/explanation.ts'
import { explainedSystem } from '@rillmark/casebook/conditions/explained-system.ts'
import { pipeWords, placeWords } from '@rillmark/casebook/conditions/part-words.ts'
import { type ReactNode, useMemo } from 'react'
import { Button } from '../kit/Button.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { GoTo } from './PredictedFace.tsx'
import type { ShownPrediction } from './use-prediction.ts'

/** Why the water is so here, in plain words, with the causes that can be shown and the way to each. */
export function WhyHere(props: {
  readonly shown: ShownPrediction
  readonly id: string
  readonly onGoTo: (goTo: GoTo) => void
}): ReactNode {
  const { shown, id, onGoTo } = props
  const { units } = usePreferences()
  const told = useMemo(
    () => explainPlace({ id, units, system: shown.system, conditions: shown.conditions }),
    [id, units, shown],
  )
  if (told.sides.length === 0) return null
  return (
    <Section title="Why it is so">
      {told.sides.map((side) => (
        <SideTold key={side.water} side={side} shown={shown} onGoTo={onGoTo} named={told.sides.length > 1} />
      ))}
    </Section>
  )
}

const ABOUT_WORDS: Readonly<Record<Sentence['about'], string>> = {
  flow: 'Flow',
  way: 'Way',
  age: 'Age',
  temperature: 'Heat',
  residual: 'Residual',
  growth: 'Growth',
}

function SideTold(props: {
  readonly side: SideExplanation
  readonly named: boolean
  readonly shown: ShownPrediction
  readonly onGoTo: (goTo: GoTo) => void
}): ReactNode {
  const { side, named, shown, onGoTo } = props
  return (
    <div className="why-side">
      {named && <h3>{side.water}</h3>}
      {side.causes.length > 0 && (
        <ul className="why-causes">
          {side.causes.map((cause) => (
            <li key={`${cause.id} ${cause.parts.join(' ')}`}>
              {cause.text} <PartLinks parts={cause.parts} shown={shown} onGoTo={onGoTo} />
            </li>
          ))}
        </ul>
      )}
      <dl className="why-told">
        {ABOUT.map((about) => {
          const told = side.sentences.filter((one) => one.about === about)
          return told.length === 0 ? null : (
            <div key={about}>
              <dt>{ABOUT_WORDS[about]}</dt>
              <dd>{told.map(({ text }) => text).join(' ')}</dd>
            </div>
          )
        })}
      </dl>
    </div>
  )
}

/** More than this would be a list of their own. */
const MOST_LINKS = 2

function PartLinks(props: {
  readonly parts: readonly string[]
  readonly shown: ShownPrediction
  readonly onGoTo: (goTo: GoTo) => void
}): ReactNode {
  const { parts, shown, onGoTo } = props
  const naming = explainedSystem(shown)
  return parts.slice(0, MOST_LINKS).map((id) => {
    const pipe = naming.graph.pipes.get(id)
    return (
      <Button
        key={id}
        kind="text"
        onPress={() => onGoTo(pipe === undefined ? { kind: 'part', id } : { kind: 'pipes', ids: [id] })}
      >
        {pipe === undefined ? placeWords(naming, id) : pipeWords(naming, pipe)}
      </Button>
    )
  })
}
