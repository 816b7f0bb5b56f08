import type { Scene, Shape, ShapeGroup } from '@rillmark/casebook/drawing/scene.ts'
import { memo, type ReactNode } from 'react'

export interface SceneShapesProps {
  readonly scene: Scene
  /** Fuller names for places whose marks say more than the place itself, by component or place key. */
  readonly names: ReadonlyMap<string, string>
}

/** The shapes of a scene. Drawn again only when the scene changes: selection and hover lie on top of it. */
export const SceneShapes = memo(function SceneShapes({ scene, names }: SceneShapesProps): ReactNode {
  return scene.shapes.map((shape, index) => shapeElement(shape, { index, names }))
})

/** The name by which clicks, hover and arrow keys find a counted box. */
export function placeKey(place: { readonly floor: number; readonly riser: string }): string {
  return `${place.floor}|${place.riser}`
}

type Surroundings = { readonly index: number; readonly names: ReadonlyMap<string, string> }

/** A plain function, not a component: a drawing of 2,000 outlets has ten thousand shapes. */
function shapeElement(shape: Shape, around: Surroundings): ReactNode {
  const key = `${shape.type} ${shape.roles.join('.')} ${shape.component ?? around.index}`
  const common = {
    className: shape.roles.join(' '),
    'data-component': shape.component,
    'data-pipes': shape.pipes?.join(' '),
  }
  switch (shape.type) {
    case 'group':
      return groupElement(shape, { ...around, key })
    case 'text':
      return (
        <text key={key} {...common} x={shape.x} y={shape.y} textAnchor={shape.anchor} aria-hidden="true">
          {/* the space keeps two lines apart where they are read as one; the drawing does not show it */}
          {`${shape.text} `}
        </text>
      )
    case 'line':
      return <line key={key} {...common} x1={shape.x1} y1={shape.y1} x2={shape.x2} y2={shape.y2} />
    case 'path':
      return <path key={key} {...common} d={shape.d} data-label={shape.pipes === undefined ? undefined : shape.label} />
    case 'circle':
      return <circle key={key} {...common} cx={shape.cx} cy={shape.cy} r={shape.r} />
    case 'rect':
      return (
        <rect key={key} {...common} x={shape.x} y={shape.y} width={shape.width} height={shape.height} rx={shape.rx} />
      )
  }
}

/** Places are buttons with a name; marks lie over them and are said with the place's name. */
function groupElement(shape: ShapeGroup, { key, names }: Surroundings & { readonly key: string }): ReactNode {
  const place = shape.place === undefined ? undefined : placeKey(shape.place)
  const about = shape.component ?? place
  const common = {
    className: shape.roles.join(' '),
    'data-component': shape.component,
    'data-pipes': shape.pipes?.join(' '),
    'data-place': place,
  }
  const inner = shape.shapes.map((one, index) => shapeElement(one, { index, names }))
  if (about === undefined || shape.roles[0] === 'mark')
    return (
      <g key={key} {...common} aria-hidden={shape.roles[0] === 'mark' || undefined}>
        {inner}
      </g>
    )
  return (
    <g key={key} {...common} role="button" tabIndex={-1} aria-label={names.get(about) ?? shape.label}>
      {inner}
    </g>
  )
}
