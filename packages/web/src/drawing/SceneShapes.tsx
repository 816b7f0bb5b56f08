import type { Scene, Shape } from '@rillmark/casebook/drawing/scene.ts'
import { memo, type ReactNode } from 'react'

export interface SceneShapesProps {
  readonly scene: Scene
  /** Fuller names for components whose marks say more than the place itself. */
  readonly names: ReadonlyMap<string, string>
}

/** The shapes of a scene. Drawn again only when the scene changes: selection and hover lie on top of it. */
export const SceneShapes = memo(function SceneShapes({ scene, names }: SceneShapesProps): ReactNode {
  return scene.shapes.map((shape, index) => <ShapeView key={keyOf(shape, index)} shape={shape} names={names} />)
})

function keyOf(shape: Shape, index: number): string {
  return `${shape.type} ${shape.roles.join('.')} ${shape.component ?? index}`
}

/** Names by which clicks, hover and arrow keys find what a shape stands for. */
export function placeKey(place: { readonly floor: number; readonly riser: string }): string {
  return `${place.floor}|${place.riser}`
}

function ShapeView({
  shape,
  names,
}: {
  readonly shape: Shape
  readonly names: ReadonlyMap<string, string>
}): ReactNode {
  const common = {
    className: shape.roles.join(' '),
    'data-component': shape.component,
    'data-pipes': shape.pipes?.join(' '),
  }
  switch (shape.type) {
    case 'group': {
      const { place } = shape
      const inner = shape.shapes.map((one, index) => <ShapeView key={keyOf(one, index)} shape={one} names={names} />)
      if (shape.roles[0] === 'mark')
        return (
          <g aria-hidden="true" {...common} data-place={place && placeKey(place)}>
            {inner}
          </g>
        )
      const name =
        (shape.component === undefined ? undefined : names.get(shape.component)) ??
        (place && names.get(placeKey(place))) ??
        shape.label
      if (shape.component === undefined && place === undefined) return <g {...common}>{inner}</g>
      return (
        <g {...common} data-place={place && placeKey(place)} role="button" tabIndex={-1} aria-label={name}>
          {inner}
        </g>
      )
    }
    case 'text':
      return (
        <text {...common} x={shape.x} y={shape.y} textAnchor={shape.anchor} aria-hidden="true">
          {shape.text}
        </text>
      )
    case 'line':
      return <line {...common} x1={shape.x1} y1={shape.y1} x2={shape.x2} y2={shape.y2} />
    case 'path':
      return <path {...common} d={shape.d} data-label={shape.pipes === undefined ? undefined : shape.label} />
    case 'circle':
      return <circle {...common} cx={shape.cx} cy={shape.cy} r={shape.r} />
    case 'rect':
      return <rect {...common} x={shape.x} y={shape.y} width={shape.width} height={shape.height} rx={shape.rx} />
  }
}
