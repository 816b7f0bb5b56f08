import { DRAWING_RULES } from '@rillmark/casebook/drawing/palette.ts'
import type { Layer } from '@rillmark/casebook/drawing/layers.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { type KeyboardEvent, type ReactNode, useEffect, useMemo, useState } from 'react'
import { DiagramBar } from './DiagramBar.tsx'
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
  const layout = useMemo(() => layoutOf(system, detail), [system, detail])
  const model = useMemo(() => diagramModel(system, { layout, layer }), [system, layout, layer])
  const box = useMemo(() => ({ x: 0, y: 0, width: model.scene.width, height: model.scene.height }), [model])
  const { svgRef, sheetRef, show, fit, start, by, closeness } = usePanZoom(box)

  useEffect(start, [start, system, detail.detail])
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
  const choose = (element: Element): void => {
    const { component, place, pipes } = found(element)
    const box = model.layout.groups.find((group) => `${group.floor}|${group.riser}` === place)
    if (box !== undefined)
      setDetail((now) => ({ ...now, expanded: [...now.expanded, { floor: box.floor, riser: box.riser }] }))
    else if (component !== undefined) onSelect?.(component)
    else if (pipes !== undefined) onSelectPipes?.(pipes)
  }
  const pressed = (event: KeyboardEvent<SVGSVGElement>): void => {
    const here = found(event.target as Element)
    const acts: Record<string, () => void> = {
      '+': () => by(ZOOM_STEP),
      '-': () => by(1 / ZOOM_STEP),
      '0': fit,
      Enter: () => choose(event.target as Element),
      ' ': () => choose(event.target as Element),
    }
    const direction = DIRECTIONS[event.key]
    const from = model.targets.find((target) => target.id === (here.component ?? here.place))
    const to = direction === undefined || from === undefined ? undefined : nearest(model.targets, from, direction)
    if (to !== undefined) focusOn(svgRef.current, to.id)
    if (to === undefined && acts[event.key] === undefined && direction === undefined) return
    acts[event.key]?.()
    event.preventDefault()
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
        onFocus={(event) => {
          const key = keyUnder(event.target)
          const target = model.targets.find((one) => one.id === key)
          if (target !== undefined && event.target.matches(':focus-visible')) show(target)
          come(key)
          rove(svgRef.current, event.target)
        }}
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

interface Found {
  readonly component?: string | undefined
  readonly place?: string | undefined
  readonly pipes?: readonly string[] | undefined
}

function found(element: Element): Found {
  const holder = element.closest<SVGElement>('[data-component],[data-place],[data-pipes]')
  const { component, place, pipes } = holder?.dataset ?? {}
  return { component, place, pipes: pipes?.split(' ') }
}

function keyUnder(element: Element): string | undefined {
  const { component, place } = found(element)
  return place ?? component
}

function elementOf(svg: SVGSVGElement | null, id: string): SVGElement | null {
  const name = CSS.escape(id)
  return (
    svg?.querySelector<SVGElement>(`g[role=button][data-component="${name}"],g[role=button][data-place="${name}"]`) ??
    null
  )
}

function focusOn(svg: SVGSVGElement | null, id: string): void {
  elementOf(svg, id)?.focus({ preventScroll: true })
}

/** One place of the drawing is reached by Tab: the one last visited. */
function rove(svg: SVGSVGElement | null, to: Element): void {
  for (const one of svg?.querySelectorAll('[tabindex="0"]') ?? []) one.setAttribute('tabindex', '-1')
  to.setAttribute('tabindex', '0')
}

/** Tells a screen reader what is selected, and makes Tab come to it. Returns how to take that back. */
function press(
  svg: SVGSVGElement | null,
  { model, selected }: { model: DiagramModel; selected: string | undefined },
): () => void {
  const at = selected === undefined ? undefined : model.targetOf(selected)
  const element = at === undefined ? null : elementOf(svg, at.id)
  const first = model.targets[0]
  if (element !== null) rove(svg, element)
  else if (first !== undefined && svg?.querySelector('[tabindex="0"]') === null)
    elementOf(svg, first.id)?.setAttribute('tabindex', '0')
  element?.setAttribute('aria-pressed', 'true')
  return () => element?.removeAttribute('aria-pressed')
}
