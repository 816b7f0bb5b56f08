import { buildGraph } from '@rillmark/casebook/building/graph.ts'
import { deadLegs, returnLegs } from '@rillmark/casebook/building/graph-questions.ts'
import { componentName } from '@rillmark/casebook/building/labels.ts'
import {
  type Circuit,
  CIRCUITS,
  isHeater,
  isOutlet,
  type WaterSystem,
} from '@rillmark/casebook/building/water-system.ts'
import { placeWords } from '@rillmark/casebook/conditions/part-words.ts'
import type { WhatIfChange } from '@rillmark/casebook/conditions/what-if.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { show } from '@rillmark/casebook/units/display.ts'
import { capital } from '@rillmark/casebook/units/capital.ts'
import type { Choice } from '../kit/Select.tsx'
import { numberIn } from '../store/typed-values.ts'
import { placeLine } from './place-line.ts'

/** What is being put together in the form: the kind of change, the part, and figures as typed. */
export interface WhatIfDraft {
  readonly change: WhatIfChange['change']
  readonly part: string
  readonly figure: string
  readonly use: 'used' | 'unused' | 'flushed daily'
  readonly at: string
  readonly minutes: string
  readonly flow: string
}

export const EMPTY_DRAFT: WhatIfDraft = {
  change: 'set-point',
  part: '',
  figure: '',
  use: 'flushed daily',
  at: '07:00',
  minutes: '3',
  flow: '6',
}

export const CHANGE_CHOICES: readonly Choice<WhatIfChange['change']>[] = [
  { id: 'set-point', label: 'Another set point' },
  { id: 'loop-flow', label: 'Another flow in a return' },
  { id: 'insulation', label: 'Other insulation' },
  { id: 'use', label: 'An outlet used otherwise' },
  { id: 'remove-dead-leg', label: 'A dead leg taken out' },
]

const CIRCUIT_WORDS: Readonly<Record<Circuit, string>> = {
  cold: 'Cold pipes',
  hot: 'Hot pipes',
  tempered: 'Tempered pipes',
  'hot-return': 'Returns',
}

/** The parts a change can be made to, named. */
export function partChoices(system: WaterSystem, change: WhatIfChange['change']): Choice[] {
  const graph = buildGraph(system)
  const named = (id: string): string => placeWords({ system, graph }, id)
  switch (change) {
    case 'set-point':
      return system.components
        .filter((one) => isHeater(one) || one.kind === 'mixing-valve')
        .map((one) => ({ id: one.id, label: componentName(one) }))
    case 'loop-flow':
      return returnLegs(graph).flatMap(({ pipes, from, riser }) =>
        pipes[0] === undefined
          ? []
          : [{ id: pipes[0], label: riser === undefined ? `Return from ${named(from)}` : `Return of riser ${riser}` }],
      )
    case 'insulation': {
      const present = new Set(system.pipes.map(({ circuit }) => circuit))
      return CIRCUITS.filter((circuit) => present.has(circuit)).map((id) => ({ id, label: CIRCUIT_WORDS[id] }))
    }
    case 'use':
      return system.components
        .filter(isOutlet)
        .map((one) => ({ id: one.id, label: componentName(one), hint: placeLine(one, system) }))
    case 'remove-dead-leg':
      return deadLegs(graph).flatMap(({ pipes, outlets, from, circuit }) => {
        const [pipe] = pipes
        if (pipe === undefined) return []
        const to = outlets.length === 0 ? `the stub at ${named(from)}` : outlets.map(named).join(', ')
        return [{ id: pipe, label: `${capital(circuit)} to ${to}` }]
      })
  }
}

/** The change a draft stands for; undefined while something is missing or can't be read. */
export function changeOf(draft: WhatIfDraft): WhatIfChange | undefined {
  const { change, part } = draft
  const figure = numberIn(draft.figure)
  if (part === '') return undefined
  switch (change) {
    case 'set-point':
      return figure === undefined ? undefined : { change, component: part, setpointC: figure }
    case 'loop-flow':
      return figure === undefined || figure < 0 ? undefined : { change, pipe: part, flowLPerMin: figure }
    case 'insulation': {
      const circuit = CIRCUITS.find((one) => one === part)
      return figure === undefined || figure < 0 || circuit === undefined
        ? undefined
        : { change, of: { circuit }, insulationMm: figure }
    }
    case 'use':
      return useChange(draft)
    case 'remove-dead-leg':
      return { change, part }
  }
}

function useChange({ part, use, figure, at, minutes, flow }: WhatIfDraft): WhatIfChange | undefined {
  const change = { change: 'use', outlet: part } as const
  if (use === 'unused') return { ...change, use: { as: 'unused' } }
  if (use === 'used') {
    const eventsPerDay = numberIn(figure)
    return eventsPerDay === undefined || eventsPerDay <= 0
      ? undefined
      : { ...change, use: { as: 'used', eventsPerDay } }
  }
  const [long, fast] = [numberIn(minutes), numberIn(flow)]
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(at) || long === undefined || long <= 0 || fast === undefined || fast <= 0)
    return undefined
  return { ...change, use: { as: 'flushed daily', at, minutes: long, flowLPerMin: fast } }
}

/** A change in words: `Heater 1: set point 55 °C`. */
export function changeWords(
  change: WhatIfChange,
  { system, units }: { system: WaterSystem; units: DisplayUnits },
): string {
  const said = (value: number, unit: string): string => show(value, { unit, units }).words
  const named = (kind: WhatIfChange['change'], id: string): string =>
    partChoices(system, kind).find((one) => one.id === id)?.label ?? id
  switch (change.change) {
    case 'set-point':
      return `${named('set-point', change.component)}: set point ${said(change.setpointC, '°C')}`
    case 'loop-flow': {
      const flow = change.flowLPerMin === 0 ? 'stopped' : said(change.flowLPerMin, 'L/min')
      return `${named('loop-flow', change.pipe)}: ${flow}`
    }
    case 'insulation': {
      const of = 'circuit' in change.of ? CIRCUIT_WORDS[change.of.circuit] : `Pipe ${change.of.pipe}`
      return `${of}: ${change.insulationMm === 0 ? 'no insulation' : `insulation ${said(change.insulationMm, 'mm')}`}`
    }
    case 'use':
      return `${named('use', change.outlet)}: ${useWords(change.use, said)}`
    case 'remove-dead-leg':
      return `Taken out: ${named('remove-dead-leg', change.part).toLowerCase()}`
  }
}

function useWords(
  use: Extract<WhatIfChange, { change: 'use' }>['use'],
  said: (value: number, unit: string) => string,
): string {
  if (use.as === 'unused') return 'not used'
  if (use.as === 'used') return `used ${use.eventsPerDay} times a day`
  return `flushed daily at ${use.at} for ${use.minutes} min, ${said(use.flowLPerMin, 'L/min')}`
}
