import { counted } from '@rillmark/casebook/units/counted.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Addition, Plan, Stop } from '@rillmark/casebook/plan/plan-file.ts'
import { type ReactNode, useCallback, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import { PlanSides } from './PlanSides.tsx'
import { StopList, type StopLine } from './StopList.tsx'

interface Point {
  readonly component: string
  readonly title: string
}

export interface DraftPointsProps {
  readonly system: WaterSystem
  readonly plan: Plan
  /** points a person asked for or took out in this draft */
  readonly changed: ReadonlySet<string>
  readonly onAdd: (point: Point) => void
  readonly onTakeOut: (point: Point) => void
  readonly onUndo: (component: string) => void
}

type Face = 'in' | 'out' | 'next'

/** The points beside the drawing: in the plan, left out with the cost, and what the next ones would bring. */
export function DraftPoints(props: DraftPointsProps): ReactNode {
  const { plan, changed, onAdd, onTakeOut, onUndo } = props
  const [face, setFace] = useState<Face>('in')
  const inLines = useMemo(() => plan.stops.map((stop, at): StopLine => ({ stop, number: at + 1 })), [plan])
  const outLines = useMemo(() => plan.leftOut.map(({ stop, cost }): StopLine => ({ stop, remark: cost })), [plan])
  const takeOut = useCallback(
    ({ component, title }: Stop) => component !== undefined && onTakeOut({ component, title }),
    [onTakeOut],
  )
  const bring = useCallback(
    ({ component, title }: Stop) => {
      if (component === undefined) return
      if (changed.has(component)) onUndo(component)
      else onAdd({ component, title })
    },
    [changed, onAdd, onUndo],
  )
  const tabs = [
    { id: 'in', label: 'In the plan', count: plan.stops.length },
    { id: 'out', label: 'Left out', count: plan.leftOut.length },
    { id: 'next', label: 'Next to add' },
  ] as const
  return (
    <PlanSides system={props.system} plan={plan}>
      {(pointing) => (
        <Tabs label="Points" tabs={tabs} selected={face} onSelect={setFace}>
          {face === 'in' && (
            <StopList
              {...pointing}
              label="Stops in walking order"
              lines={inLines}
              act={{ words: 'Take out', onPress: takeOut }}
              empty="No point fits this budget. Allow more samples or hours."
            />
          )}
          {face === 'out' && (
            <StopList
              {...pointing}
              label="Points left out"
              lines={outLines}
              act={{ words: 'Put in', onPress: bring }}
              empty="Nothing obligatory is left out."
            />
          )}
          {face === 'next' && <NextPoints added={plan.added ?? []} onAdd={onAdd} />}
        </Tabs>
      )}
    </PlanSides>
  )
}

const WORDS: Readonly<Record<string, string>> = {
  'local-outlets': 'a few outlets',
  'one-riser': 'one riser',
  'hot-system': 'the hot system',
  'cold-supply': 'the cold supply',
}

function NextPoints({
  added,
  onAdd,
}: {
  readonly added: readonly Addition[]
  readonly onAdd: (point: Point) => void
}): ReactNode {
  if (added.length === 0) return <p className="quiet">Every outlet is in the plan.</p>
  return (
    <ol className="stops" aria-label="The next points, and what each would bring">
      {added.map(({ component, title, samples, gains }) => (
        <li key={component} className="stop">
          <span className="stop-number">+</span>
          <div className="stop-body">
            <p className="stop-head">
              <b>{title}</b>
              <span className="faint">{counted(samples, 'sample')}</span>
            </p>
            <p className="stop-why">{gainWords(gains)}</p>
          </div>
          <Button kind="text" name={`Add: ${title}`} onPress={() => onAdd({ component, title })}>
            Add
          </Button>
        </li>
      ))}
    </ol>
  )
}

const WORTH_SAYING = 0.001

function gainWords(gains: Addition['gains']): string {
  const said = Object.entries(gains)
    .filter(([, gain]) => gain >= WORTH_SAYING)
    .sort(([, a], [, b]) => b - a)
    .map(([id, gain]) => `${WORDS[id] ?? id} +${(gain * 100).toFixed(1)}`)
  return said.length === 0
    ? 'Adds less than 0.1 points to any chance.'
    : `Points added to the chance to detect: ${said.join(', ')}.`
}
