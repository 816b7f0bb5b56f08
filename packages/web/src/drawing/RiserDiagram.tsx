import { DRAWING_RULES } from '@rillmark/casebook/drawing/palette.ts'
import type { Layer } from '@rillmark/casebook/drawing/layers.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { type KeyboardEvent, type ReactNode, useEffect, useMemo, useState } from 'react'
import { usePreferences } from '../store/preferences.tsx'
import { DiagramBar } from './DiagramBar.tsx'
import { focusOn, found, keyUnder, press, rove } from './diagram-dom.ts'
import { DiagramLegend } from './DiagramLegend.tsx'
import { type Detail, type DiagramModel, diagramModel, layoutOf } from './diagram-model.ts'
import { type Direction, nearest } from './nearest.ts'
import { Overlay } from './Overlay.tsx'
import { SceneShapes } from './SceneShapes.tsx'
import { usePanZoom } from './usePanZoom.ts'
import './diagram.css'

// The casebook owns what each role looks like, for every medium; adopting it keeps to a policy without inline styles.
const rules = new CSSStyleSheet()
rules.replaceSync(DRAWING_RULES)
document.adoptedStyleSheets = [...document.adoptedStyleSheets, rules]

export interface RiserDiagramProps {
  readonly system: WaterSystem
  /** The kind of knowledge laid over the drawing. Keep it the same object while nothing changed. */
  readonly layer?: Layer | undefined
  readonly selected?: string | undefined
  readonly onSelect?: ((componentId: string) => void) | undefined
  /** Places another part of the screen speaks of. */
  readonly highlight?: ReadonlySet<string> | undefined
  readonly onHover?: ((componentId: string | undefined) => void) | undefined
  readonly onSelectPipes?: ((pipeIds: readonly string[]) => void) | undefined
}

const DIRECTIONS: Readonly<Record<string, Direction>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
}
const AUTO: Detail = { detail: 'auto', expanded: [] }
const ZOOM_STEP = 1.35

/** The building's water as the trade draws it: pan, zoom, go about by arrow keys, select, open counted boxes, light up what is spoken of. */
export function RiserDiagram(props: RiserDiagramProps): ReactNode {
  const { system, layer, selected, onSelect, onHover, onSelectPipes } = props
  const [detail, setDetail] = useState(AUTO)
  const [near, setNear] = useState<string>()
  const [said, setSaid] = useState<string>()
  const { layout, model, box } = useDrawn(system, { detail, layer })
  const { svgRef, sheetRef, show, fit, start, by, closeness } = usePanZoom(box)

  // An edit that leaves the drawing as large as it was leaves it where it was.
  useEffect(start, [start, system.name, box.width, box.height, detail.detail])
  useEffect(() => {
    const target = selected === undefined ? undefined : model.targetOf(selected)
    if (target !== undefined) show(target)
    return press(svgRef.current, { model, selected })
  }, [selected, model, show, svgRef])

  const come = (key: string | undefined): void => {
    setNear(key)
    if (key !== undefined) setSaid(model.names.get(key))
    onHover?.(key !== undefined && model.layout.spots.has(key) ? key : undefined)
  }
  const arrive = (element: Element): void => {
    const key = keyUnder(element)
    const target = model.targets.find((one) => one.id === key)
    if (target !== undefined && element.matches(':focus-visible')) show(target)
    come(key)
    rove(svgRef.current, element)
  }
  const choose = (element: Element): void => {
    const { component, place, pipes } = found(element)
    const box = model.layout.groups.find((group) => `${group.floor}|${group.riser}` === place)
    if (box !== undefined) setDetail((now) => opened(now, box))
    else if (component !== undefined) onSelect?.(component)
    else if (pipes !== undefined) onSelectPipes?.(pipes)
  }
  const pressed = (event: KeyboardEvent<SVGSVGElement>): void => {
    const element = event.target as Element
    const zoomed = { '+': () => by(ZOOM_STEP), '-': () => by(1 / ZOOM_STEP), '0': fit }
    const act = keyAct(event.key, { model, svg: svgRef.current, element, zoomed, choose })
    if (act === undefined) return
    event.preventDefault()
    act()
  }

  return (
    <div className="diagram">
      <DiagramBar detail={detail} onDetail={setDetail} layout={layout} by={by} fit={fit} />
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-element-interactions -- the places inside are its buttons; the drawing listens for all of them */}
      <svg
        ref={svgRef}
        className="rl diagram-sheet"
        data-closeness={closeness}
        role="group"
        aria-label={`${model.scene.title}. ${model.scene.description} Arrow keys go from place to place, Enter selects.`}
        onKeyDown={pressed}
        onClick={(event) => choose(event.target as Element)}
        onPointerOver={(event) => come(keyUnder(event.target as Element))}
        onPointerLeave={() => come(undefined)}
        onFocus={(event) => arrive(event.target)}
      >
        <g ref={sheetRef}>
          <SceneShapes scene={model.scene} names={model.names} />
          <Overlay model={model} selected={selected} lit={props.highlight} near={near} />
        </g>
      </svg>
      <p className="diagram-says">{said ?? model.scene.description}</p>
      <DiagramLegend layout={layout} layer={layer} />
    </div>
  )
}

/** The detail with one more counted box opened. */
function opened(detail: Detail, { floor, riser }: Detail['expanded'][number]): Detail {
  return { ...detail, expanded: [...detail.expanded, { floor, riser }] }
}

/** The layout is kept while layers change, the model while only the selection does. */
function useDrawn(system: WaterSystem, { detail, layer }: { detail: Detail; layer: Layer | undefined }) {
  const layout = useMemo(() => layoutOf(system, detail), [system, detail])
  const { units } = usePreferences()
  const model = useMemo(() => diagramModel(system, { layout, layer, units }), [system, layout, layer, units])
  const box = useMemo(() => ({ x: 0, y: 0, width: model.scene.width, height: model.scene.height }), [model])
  return { layout, model, box }
}

interface KeySurroundings {
  readonly model: DiagramModel
  readonly svg: SVGSVGElement | null
  readonly element: Element
  readonly zoomed: Readonly<Record<string, () => void>>
  readonly choose: (element: Element) => void
}

/** Arrows go to the next place, Enter and space choose, plus, minus and nought zoom. Undefined for any other key. */
function keyAct(key: string, { model, svg, element, zoomed, choose }: KeySurroundings): (() => void) | undefined {
  if (key === 'Enter' || key === ' ') return () => choose(element)
  const direction = DIRECTIONS[key]
  if (direction === undefined) return zoomed[key]
  const here = keyUnder(element)
  const from = model.targets.find((target) => target.id === here)
  const to = from === undefined ? undefined : nearest(model.targets, { from, direction })
  return () => {
    if (to !== undefined) focusOn(svg, to.id)
  }
}
