import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Plan } from '@rillmark/casebook/plan/plan-file.ts'
import { type ReactNode, useDeferredValue, useMemo, useState } from 'react'
import { RiserDiagram } from '../drawing/RiserDiagram.tsx'
import { planLayer } from './plan-layer.ts'
import type { Pointing } from './StopList.tsx'

/** List and drawing side by side: what is pointed at in one lights up in the other. */
export function PlanSides(props: {
  readonly system: WaterSystem
  readonly plan: Plan
  readonly children: (pointing: Pointing) => ReactNode
}): ReactNode {
  const [selected, onSelect] = useState<string>()
  const [lit, onHover] = useState<string>()
  const plan = useDeferredValue(props.plan)
  const layer = useMemo(() => planLayer(plan), [plan])
  const highlight = useMemo(() => new Set(lit === undefined ? [] : [lit]), [lit])
  return (
    <div className="plan-sides">
      <div className="plan-list">{props.children({ selected, onSelect, lit, onHover })}</div>
      <div className="plan-drawing">
        <RiserDiagram
          system={props.system}
          layer={layer}
          selected={selected}
          onSelect={onSelect}
          highlight={highlight}
          onHover={onHover}
        />
      </div>
    </div>
  )
}
