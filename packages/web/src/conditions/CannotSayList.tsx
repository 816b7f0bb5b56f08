import { componentName } from '@rillmark/casebook/building/labels.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { CannotSay } from '@rillmark/casebook/conditions/conditions.ts'
import { inReadersUnits } from '@rillmark/casebook/conditions/in-readers-units.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { GoTo } from './PredictedFace.tsx'

const SHOWN_FIRST = 6

/** What keeps the simulation from saying anything, what would have to be described, and the way there. */
export function CannotSayList(props: {
  readonly reasons: readonly CannotSay[]
  readonly system: WaterSystem
  readonly title: string
  readonly onGoTo: (goTo: GoTo) => void
}): ReactNode {
  const { reasons, system, title, onGoTo } = props
  const { units } = usePreferences()
  const [all, setAll] = useState(false)
  if (reasons.length === 0) return null
  return (
    <Section title={title} aside={String(reasons.length)}>
      <ul className="cannot-say">
        {(all ? reasons : reasons.slice(0, SHOWN_FIRST)).map((reason) => {
          const { name, goTo } = placeAt(system, reason.at)
          return (
            <li key={`${reason.at} ${reason.why}`}>
              <b>{name}</b>
              {goTo !== undefined && (
                <Button kind="text" name={`Go to ${name}`} onPress={() => onGoTo(goTo)}>
                  Go there
                </Button>
              )}
              <span>{inReadersUnits(reason.why, units)}</span>
              {reason.needs !== '' && <span className="quiet">Needed: {inReadersUnits(reason.needs, units)}</span>}
            </li>
          )
        })}
      </ul>
      {!all && reasons.length > SHOWN_FIRST && (
        <Button kind="text" onPress={() => setAll(true)}>
          Show all {reasons.length}
        </Button>
      )}
    </Section>
  )
}

/** What a path of the file or an id means to a person: `components.3.volumeL` or `heater-1`. */
function placeAt(system: WaterSystem, at: string): { name: string; goTo: GoTo | undefined } {
  const [list, index] = at.split('.')
  const component =
    system.components.find(({ id }) => id === at) ??
    (list === 'components' ? system.components[Number(index)] : undefined)
  if (component !== undefined) return { name: componentName(component), goTo: { kind: 'part', id: component.id } }
  const pipe = system.pipes.find(({ id }) => id === at) ?? (list === 'pipes' ? system.pipes[Number(index)] : undefined)
  if (pipe !== undefined) return { name: `Pipe ${pipe.label ?? pipe.id}`, goTo: { kind: 'pipes', ids: [pipe.id] } }
  return { name: list === 'supply' ? 'Supply' : 'The building', goTo: undefined }
}
