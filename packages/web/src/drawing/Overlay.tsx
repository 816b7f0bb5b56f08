import type { ReactNode } from 'react'
import type { DiagramModel } from './diagram-model.ts'

export interface OverlayProps {
  readonly model: DiagramModel
  readonly selected: string | undefined
  readonly lit: ReadonlySet<string> | undefined
  /** Under the pointer or the keyboard. */
  readonly near: string | undefined
}

/** Rings over the drawing: what is selected, what another part of the screen speaks of, what is pointed at. */
export function Overlay({ model, selected, lit, near }: OverlayProps): ReactNode {
  const litTargets = new Set([...(lit ?? [])].map(model.targetOf))
  return (
    <g className="overlay" aria-hidden="true">
      {[...litTargets].map(
        (target) => target !== undefined && <Ring key={target.id} model={model} id={target.id} kind="lit" />,
      )}
      {near !== undefined && <Ring model={model} id={near} kind="near" />}
      {selected !== undefined && <Ring model={model} id={selected} kind="selected" />}
    </g>
  )
}

function Ring({
  model,
  id,
  kind,
}: {
  readonly model: DiagramModel
  readonly id: string
  readonly kind: string
}): ReactNode {
  const target = model.targetOf(id)
  if (target === undefined) return null
  const box = model.layout.groups.find((group) => `${group.floor}|${group.riser}` === target.id)
  if (box !== undefined)
    return (
      <rect
        className={`ring ${kind}`}
        x={box.left - 4}
        y={box.top - 4}
        width={box.width + 8}
        height={box.height + 8}
        rx={7}
      />
    )
  const role = model.layout.spots.get(target.id)?.role
  return <circle className={`ring ${kind}`} cx={target.x} cy={target.y} r={role === 'equipment' ? 40 : 13} />
}
