/**
 * A drawing as a list of shapes without a look: each carries roles ("pipe", "hot") that a palette turns into colour
 * and weight. The same scene is drawn by the app, the command and the report.
 */
export interface Scene {
  width: number
  height: number
  title: string
  description: string
  shapes: readonly Shape[]
}

interface Common {
  /** What it is, from general to particular; becomes its classes. */
  roles: readonly string[]
  /** The component it stands for. */
  component?: string
  /** The pipes it stands for. */
  pipes?: readonly string[]
  /** What a screen reader says. */
  label?: string
}

export interface Line extends Common {
  type: 'line'
  x1: number
  y1: number
  x2: number
  y2: number
}

export interface Path extends Common {
  type: 'path'
  d: string
}

export interface Circle extends Common {
  type: 'circle'
  cx: number
  cy: number
  r: number
}

export interface Rect extends Common {
  type: 'rect'
  x: number
  y: number
  width: number
  height: number
  rx?: number
}

export interface Text extends Common {
  type: 'text'
  x: number
  y: number
  text: string
  anchor?: 'start' | 'middle' | 'end'
}

export interface ShapeGroup extends Common {
  type: 'group'
  shapes: readonly Shape[]
  /** The floor and riser a counted group stands for. */
  place?: { floor: number; riser: string }
}

export type Shape = Line | Path | Circle | Rect | Text | ShapeGroup

/** About how wide a text is drawn, erring on the wide side: no fonts are measured here. */
export const textWidth = (text: string, sizePx: number): number => text.length * sizePx * WIDE_LETTER

const WIDE_LETTER = 0.6

/** A path through points. */
export const pathThrough = (points: readonly { x: number; y: number }[]): string =>
  points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${tenth(x)} ${tenth(y)}`).join('')

/** Coordinates to a tenth: a stable text for the same drawing. */
export const tenth = (value: number): number => Math.round(value * 10) / 10
