import type { MarkForm, Tone } from './layers.ts'
import type { Point } from './places.ts'
import type { Shape } from './scene.ts'
import { tenth } from './scene.ts'

/** The shapes of one mark, on a backing that hides the lines beneath. */
export function markShape(given: { form: MarkForm; at: Point; r: number; tone: Tone }): Shape[] {
  const { form, at, r, tone } = given
  const roles = ['mark-form', form, tone]
  const backing: Shape = { type: 'circle', cx: tenth(at.x), cy: tenth(at.y), r: r + 1.5, roles: ['backing'] }
  const path = (d: string): Shape => ({ type: 'path', d, roles })
  const at2 = (dx: number, dy: number): string => `${tenth(at.x + dx)} ${tenth(at.y + dy)}`
  switch (form) {
    case 'cross':
      return [backing, path(`M${at2(-r, -r)}L${at2(r, r)}M${at2(r, -r)}L${at2(-r, r)}`)]
    case 'square':
      return [backing, { type: 'rect', x: tenth(at.x - r), y: tenth(at.y - r), width: 2 * r, height: 2 * r, roles }]
    case 'diamond':
      return [backing, path(`M${at2(0, -r - 1)}L${at2(r + 1, 0)}L${at2(0, r + 1)}L${at2(-r - 1, 0)}Z`)]
    case 'triangle':
      return [backing, path(`M${at2(0, -r)}L${at2(r, r * 0.8)}L${at2(-r, r * 0.8)}Z`)]
    case 'dot':
      return [{ type: 'circle', cx: tenth(at.x), cy: tenth(at.y), r: 2.5, roles }]
    default:
      return [backing, { type: 'circle', cx: tenth(at.x), cy: tenth(at.y), r, roles }]
  }
}
