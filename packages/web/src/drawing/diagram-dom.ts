import type { DiagramModel } from './diagram-model.ts'

/** What an element of the drawing stands for. */
export interface Found {
  readonly component?: string | undefined
  readonly place?: string | undefined
  readonly pipes?: readonly string[] | undefined
}

/** What the nearest element that stands for something stands for. */
export function found(element: Element): Found {
  const holder = element.closest<SVGElement>('[data-component],[data-place],[data-pipes]')
  const { component, place, pipes } = holder?.dataset ?? {}
  return { component, place, pipes: pipes?.split(' ') }
}

/** The component or counted box at an element. */
export function keyUnder(element: Element): string | undefined {
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

/** Puts the focus on a place of the drawing. */
export function focusOn(svg: SVGSVGElement | null, id: string): void {
  elementOf(svg, id)?.focus({ preventScroll: true })
}

/** One place of the drawing is reached by Tab: the one last visited. */
export function rove(svg: SVGSVGElement | null, to: Element): void {
  for (const one of svg?.querySelectorAll('[tabindex="0"]') ?? []) one.setAttribute('tabindex', '-1')
  to.setAttribute('tabindex', '0')
}

/** Tells a screen reader what is selected, and makes Tab come to it. Returns how to take that back. */
export function press(
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
