import { select } from 'd3-selection'
import { type ZoomBehavior, zoom, zoomIdentity, type ZoomTransform } from 'd3-zoom'
import { type RefObject, useEffect, useMemo, useRef, useState } from 'react'

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface PanZoom {
  readonly svgRef: RefObject<SVGSVGElement | null>
  readonly sheetRef: RefObject<SVGGElement | null>
  /** The whole drawing in view. */
  readonly fit: () => void
  /** The first view: the whole drawing, or on a phone its full height from the left, so that it can be read. */
  readonly start: () => void
  readonly by: (factor: number) => void
  /** Brings a place into view if it is outside, without changing the scale. */
  readonly show: (point: { readonly x: number; readonly y: number }) => void
  /** Rough scale, for how much text is worth drawing; changes only when it passes a mark. */
  readonly closeness: 'far' | 'middle' | 'near'
}

const SMALLEST = 0.04
const LARGEST = 8
const FAR_BELOW = 0.45
const NEAR_FROM = 0.85
const EDGE_PX = 40
const NARROW_PX = 720
const READABLE = 0.8

/** Pan by dragging, zoom by wheel, pinch or key. The sheet is moved directly; React draws nothing anew while it moves. */
export function usePanZoom(content: Box): PanZoom {
  const svgRef = useRef<SVGSVGElement>(null)
  const sheetRef = useRef<SVGGElement>(null)
  const behaviour = useRef<ZoomBehavior<SVGSVGElement, unknown>>(undefined)
  const current = useRef<ZoomTransform>(zoomIdentity)
  const box = useRef(content)
  const [closeness, setCloseness] = useState<PanZoom['closeness']>('middle')

  const acts = useMemo(() => {
    const to = (transform: ZoomTransform): void => {
      if (svgRef.current !== null) behaviour.current?.transform(select(svgRef.current), transform)
    }
    return {
      fit: () => {
        if (svgRef.current !== null) to(fitting(svgRef.current.getBoundingClientRect(), box.current))
      },
      start: () => {
        if (svgRef.current !== null) to(starting(svgRef.current.getBoundingClientRect(), box.current))
      },
      by: (factor: number) => {
        if (svgRef.current !== null) behaviour.current?.scaleBy(select(svgRef.current), factor)
      },
      show: (point: { readonly x: number; readonly y: number }) => {
        if (svgRef.current === null) return
        const { width, height } = svgRef.current.getBoundingClientRect()
        const [x, y] = current.current.apply([point.x, point.y])
        const right = outsideBy(x, width)
        const down = outsideBy(y, height)
        if (right !== 0 || down !== 0)
          to(current.current.translate(-right / current.current.k, -down / current.current.k))
      },
    }
  }, [])

  useEffect(() => {
    box.current = content
  }, [content])

  useEffect(() => {
    const svg = svgRef.current
    if (svg === null) return undefined
    behaviour.current = zoom<SVGSVGElement, unknown>()
      .scaleExtent([SMALLEST, LARGEST])
      .filter((event: MouseEvent | WheelEvent | TouchEvent) => wanted(event, svg))
      .on('zoom', ({ transform }: { transform: ZoomTransform }) => {
        current.current = transform
        sheetRef.current?.setAttribute('transform', transform.toString())
        setCloseness(transform.k < FAR_BELOW ? 'far' : transform.k < NEAR_FROM ? 'middle' : 'near')
      })
    select(svg).call(behaviour.current).on('dblclick.zoom', null)
    acts.start()
    const resized = new ResizeObserver(() => acts.start())
    resized.observe(svg)
    return () => {
      resized.disconnect()
      select(svg).on('.zoom', null)
    }
  }, [acts])

  return { svgRef, sheetRef, closeness, ...acts }
}

/** The wheel zooms with Ctrl (which is also a pinch), or once the drawing has the focus; else it scrolls the page. */
function wanted(event: MouseEvent | WheelEvent | TouchEvent, svg: SVGSVGElement): boolean {
  if (event.type === 'wheel') return event.ctrlKey || event.metaKey || svg.contains(document.activeElement)
  return !('button' in event) || event.button === 0
}

/** The whole sheet in view, centred, never enlarged beyond its own size by more than a little. */
export function fitting(view: { readonly width: number; readonly height: number }, content: Box): ZoomTransform {
  const scale = Math.min(view.width / content.width, view.height / content.height, 1.4)
  const k = Number.isFinite(scale) && scale > 0 ? scale : 1
  return zoomIdentity
    .translate((view.width - content.width * k) / 2, (view.height - content.height * k) / 2)
    .scale(k)
    .translate(-content.x, -content.y)
}

/** On a narrow screen a wide drawing is shown at its full height, from the left. */
export function starting(view: { readonly width: number; readonly height: number }, content: Box): ZoomTransform {
  const whole = fitting(view, content)
  if (view.width > NARROW_PX || whole.k > READABLE) return whole
  const k = Math.max(whole.k, Math.min(1, view.height / content.height))
  return zoomIdentity.translate(0, (view.height - content.height * k) / 2).scale(k)
}

function outsideBy(at: number, size: number): number {
  if (at < EDGE_PX) return at - EDGE_PX
  return at > size - EDGE_PX ? at - (size - EDGE_PX) : 0
}
