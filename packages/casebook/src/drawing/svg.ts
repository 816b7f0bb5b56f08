import type { Theme } from './palette.ts'
import { drawingCss } from './palette.ts'
import type { Scene, Shape } from './scene.ts'

export interface SvgOptions {
  theme?: Theme
  /** Keep the unseen shapes one points at; false for paper. True unless told otherwise. */
  pointable?: boolean
}

/** The scene as one self-contained SVG document: its own style sheet, a title, a description, and names for screen readers. */
export function sceneToSvg(scene: Scene, options: SvgOptions = {}): string {
  const { width, height } = scene
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="rl" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="rl-title rl-desc">`,
    `<title id="rl-title">${escapeText(scene.title)}</title><desc id="rl-desc">${escapeText(scene.description)}</desc>`,
    `<style>${drawingCss(options.theme ?? 'light')}</style>`,
    `<rect class="sheet" width="${width}" height="${height}"/>`,
    ...(options.pointable === false ? seenOnly(scene.shapes) : scene.shapes).map(shapeToSvg),
    '</svg>',
  ].join('\n')
}

const UNSEEN: ReadonlySet<string> = new Set(['target', 'pipe-target'])

const seenOnly = (shapes: readonly Shape[]): Shape[] =>
  shapes
    .filter((shape) => !UNSEEN.has(shape.roles[0] ?? ''))
    .map((shape) => (shape.type === 'group' ? { ...shape, shapes: seenOnly(shape.shapes) } : shape))

function shapeToSvg(shape: Shape): string {
  const label = shape.label === undefined ? '' : `<title>${escapeText(shape.label)}</title>`
  const common = attributes({
    class: shape.roles.join(' '),
    'data-component': shape.component,
    'data-pipes': shape.pipes?.join(' '),
  })
  switch (shape.type) {
    case 'group':
      return `<g${common}>${label}${shape.shapes.map(shapeToSvg).join('')}</g>`
    case 'text':
      return `<text${common}${attributes({ x: shape.x, y: shape.y, 'text-anchor': shape.anchor })}>${escapeText(shape.text)}</text>`
    case 'line':
      return element('line', { common, own: { x1: shape.x1, y1: shape.y1, x2: shape.x2, y2: shape.y2 }, label })
    case 'path':
      return element('path', { common, own: { d: shape.d }, label })
    case 'circle':
      return element('circle', { common, own: { cx: shape.cx, cy: shape.cy, r: shape.r }, label })
    case 'rect': {
      const { x, y, width, height, rx } = shape
      return element('rect', { common, own: { x, y, width, height, rx }, label })
    }
  }
}

type Values = Record<string, string | number | undefined>

function element(name: string, { common, own, label }: { common: string; own: Values; label: string }): string {
  const start = `<${name}${common}${attributes(own)}`
  return label === '' ? `${start}/>` : `${start}>${label}</${name}>`
}

const attributes = (values: Values): string =>
  Object.entries(values)
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => ` ${name}="${escapeText(String(value))}"`)
    .join('')

const ESCAPES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' }
/** Characters XML 1.0 does not allow: controls other than tab and line ends, and two non-characters. */
const NOT_XML = /[^\P{Cc}\t\n\r]|[\uFFFE\uFFFF]/gu

const escapeText = (text: string): string =>
  text
    .toWellFormed()
    .replaceAll(NOT_XML, '\uFFFD')
    .replaceAll(/[&<>"]/g, (letter) => ESCAPES[letter] ?? letter)
