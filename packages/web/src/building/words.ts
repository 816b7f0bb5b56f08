import { floorWords } from '@rillmark/casebook/building/floor-words.ts'
import { componentName, kindWord } from '@rillmark/casebook/building/labels.ts'
import type {
  Component,
  DisinfectantKind,
  KnownBy,
  Pipe,
  Use,
  WaterSystem,
} from '@rillmark/casebook/building/water-system.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { show } from '@rillmark/casebook/units/display.ts'
import type { MarkShape } from '../kit/Mark.tsx'

export const DISINFECTANT_WORDS: Readonly<Record<DisinfectantKind, string>> = {
  'free-chlorine': 'free chlorine',
  chloramine: 'chloramine',
  'chlorine-dioxide': 'chlorine dioxide',
  none: 'none',
  unknown: 'not known yet',
}

export const DISINFECTANT_CHOICES = (Object.keys(DISINFECTANT_WORDS) as DisinfectantKind[]).map((id) => ({
  id,
  label: DISINFECTANT_WORDS[id],
}))

/** How a fact is known, said in full where it is chosen. */
export const KNOWN_CHOICES: readonly { id: KnownBy; label: string; hint: string }[] = [
  { id: 'seen', label: 'seen', hint: 'on site, with own eyes' },
  { id: 'told', label: 'told', hint: 'by someone who knows it' },
  { id: 'drawn', label: 'drawn', hint: 'read off a drawing' },
  { id: 'guessed', label: 'guessed', hint: 'nobody has said' },
]

/** The same shapes as on the drawing. */
export const KNOWN_SHAPES: Readonly<Record<KnownBy | 'not said', MarkShape>> = {
  seen: 'full',
  told: 'open',
  drawn: 'diamond',
  guessed: 'dashed',
  'not said': 'cross',
}

/** Words as they begin a line. */
export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

/** `floor 4 · riser B · room 409`, as far as it is known. */
export function placeWords({ floor, riser, room, zone }: Component, system?: WaterSystem): string {
  const parts = [
    floor !== undefined && floorWords(system?.floors, floor),
    riser !== undefined && `riser ${riser}`,
    room !== undefined && `room ${room}`,
    zone !== undefined && zone,
  ]
  return parts.filter((part) => part !== false).join(' · ')
}

/** A name and where it is, for choosing among many. */
export function partChoice(component: Component): { id: string; label: string; hint: string } {
  const place = placeWords(component)
  return { id: component.id, label: componentName(component), hint: place === '' ? kindWord(component.kind) : place }
}

/** A component's name by its id; the id itself where there is none. */
export function nameIn(system: WaterSystem, id: string): string {
  const found = system.components.find((one) => one.id === id)
  return found === undefined ? id : componentName(found)
}

const CIRCUIT_WORDS = { cold: 'cold', hot: 'hot', tempered: 'tempered', 'hot-return': 'hot return' } as const

export const circuitWord = (circuit: Pipe['circuit']): string => CIRCUIT_WORDS[circuit]

/** How an outlet is used, in one line. */
export function useWords(use: Use, units: DisplayUnits): string {
  const said = (value: number, unit: string): string => show(value, { unit, units }).words
  const mixed = 'mixToC' in use && use.mixToC !== undefined ? `, mixed to ${said(use.mixToC, '°C')}` : ''
  switch (use.pattern) {
    case 'unused':
      return 'not used'
    case 'constant':
      return `runs all the time at ${said(use.flowLPerMin, 'L/min')}${mixed}`
    case 'schedule':
      return `${use.draws.map((draw) => drawWords(draw, said)).join('; ')}${mixed}`
    case 'pulses':
      return `${use.eventsPerDay} × ${use.minutes} min a day at ${said(use.flowLPerMin, 'L/min')}${mixed}`
  }
}

/** `07:30 10 min 9 L/min` */
function drawWords(
  { at, minutes, flowLPerMin, mixToC }: Extract<Use, { pattern: 'schedule' }>['draws'][number],
  said: (value: number, unit: string) => string,
): string {
  const mixed = mixToC === undefined ? '' : `, mixed to ${said(mixToC, '°C')}`
  return `${at} ${minutes} min ${said(flowLPerMin, 'L/min')}${mixed}`
}
