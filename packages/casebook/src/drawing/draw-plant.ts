import { componentName, kindWord } from '../building/labels.ts'
import type { Component } from '../building/water-system.ts'
import type { DisplayUnits } from '../units/display-units.ts'
import { type ShownIn, show, showReckoned } from '../units/display.ts'
import { SIZES } from './measures.ts'
import type { Layout, Spot } from './places.ts'
import type { Shape } from './scene.ts'
import { tenth } from './scene.ts'

const HALF_W = SIZES.equipmentWidth / 2
const HALF_H = SIZES.equipmentHeight / 2
const LINE_PX = 14
const LINE_LETTERS = 15

const SMALL: ReadonlySet<string> = new Set(['supply-entry', 'pump', 'mixing-valve'])

/** The sign of an entry, tank, heater, valve or pump, with its name and main figure beneath (above on the roof). */
export function drawEquipment(layout: Layout, { spot, units }: { spot: Spot; units: DisplayUnits }): Shape[] {
  if (spot.role !== 'equipment') return []
  const { component, x, y } = spot
  const outwards = layout.plants.find((plant) => plant.side === spot.plant)?.outwards ?? 1
  const figure = figureOf(component, units)
  const lines = nameLines(component, figure)
  const half = SMALL.has(component.kind) ? 12 : HALF_H
  const firstY = outwards === 1 ? y + half + 15 : y - half - 7 - (lines.length - 1) * LINE_PX
  const texts = lines.map(
    (text, index): Shape => ({
      type: 'text',
      x: tenth(x),
      y: tenth(firstY + index * LINE_PX),
      text,
      anchor: 'middle',
      roles: [index === 0 ? 'equipment-name' : 'equipment-figure'],
    }),
  )
  const label = [kindWord(component.kind), componentName(component), figure].filter(Boolean).join(', ')
  return [
    {
      type: 'group',
      roles: ['equipment', component.kind],
      component: component.id,
      label,
      shapes: [...signOf(component, spot), ...texts],
    },
  ]
}

function nameLines(component: Component, figure: string): string[] {
  const name = component.label ?? `${kindWord(component.kind)} ${component.id}`
  const cut = name.length > LINE_LETTERS ? `${name.slice(0, LINE_LETTERS - 1)}…` : name
  return figure === '' ? [cut] : [cut, figure]
}

function figureOf({ volumeL, setpointC, flowLPerMin, kind }: Component, units: DisplayUnits): string {
  const said = (value: number | undefined, unit: string): string =>
    value === undefined ? '' : shortWords(value, { unit, units })
  const [volume, setpoint] = [said(volumeL, 'L'), said(setpointC, '°C')]
  const flow = said(kind === 'pump' ? flowLPerMin : undefined, 'L/min')
  return [volume, setpoint, flow].filter((text) => text !== '').join(' · ')
}

/** In another unit than given to three digits: there is no room for more beside a pipe. */
function shortWords(value: number, shownIn: ShownIn): string {
  const given = show(value, shownIn)
  return given.unit === shownIn.unit ? given.words : showReckoned(value, { ...shownIn, digits: 3 }).words
}

function signOf(component: Component, { x, y }: Spot): Shape[] {
  const box = (rx: number): Shape => ({
    type: 'rect',
    x: tenth(x - HALF_W),
    y: tenth(y - HALF_H),
    width: 2 * HALF_W,
    height: 2 * HALF_H,
    rx,
    roles: ['equipment-box'],
  })
  const round = (r: number): Shape => ({ type: 'circle', cx: tenth(x), cy: tenth(y), r, roles: ['equipment-box'] })
  const stroke = (d: string): Shape => ({ type: 'path', d, roles: ['equipment-detail'] })
  const at = (dx: number, dy: number): string => `${tenth(x + dx)} ${tenth(y + dy)}`
  switch (component.kind) {
    case 'supply-entry':
      return [round(9), { type: 'path', d: `M${at(-3, -4)}L${at(4, 0)}L${at(-3, 4)}Z`, roles: ['equipment-fill'] }]
    case 'pump':
      return [round(10), { type: 'path', d: `M${at(-4, -6)}L${at(8, 0)}L${at(-4, 6)}Z`, roles: ['equipment-fill'] }]
    case 'mixing-valve':
      return [
        stroke(`M${at(-10, -7)}L${at(10, 7)}V${tenth(y - 7)}L${at(-10, 7)}Z`),
        stroke(`M${at(0, 0)}V${tenth(y - 10)}`),
      ]
    case 'cold-tank':
      return [box(2), stroke(`M${at(-HALF_W, -14)}q6 -4 12.5 0t12.5 0t12.5 0t12.5 0`)]
    case 'instant-heater':
      return [box(2), stroke(`M${at(-14, 8)}L${at(-7, -8)}L${at(0, 8)}L${at(7, -8)}L${at(14, 8)}`)]
    case 'storage-heater':
      return [box(10), stroke(`M${at(-12, 16)}h24M${at(-12, 11)}h24`)]
    case 'treatment':
      return [box(2), stroke(`M${at(-HALF_W, 12)}L${at(HALF_W, -12)}`)]
    default:
      return [box(2)]
  }
}
