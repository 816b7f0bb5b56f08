import assumed from '@rillmark/reference/building/assumptions.json' with { type: 'json' }
import table from '@rillmark/reference/conditions/filled-in.json' with { type: 'json' }
import { assumedUseSource } from '../building/assumptions.ts'
import type { ComponentKind, Use } from '../building/water-system.ts'
import type { Noted } from './assumption-log.ts'

/** A figure that is filled in where the description is silent. */
export type FilledIn = Exclude<keyof typeof table.figures, 'use'>
/** Something other than a figure that is taken where the description is silent. */
export type Choice = keyof typeof table.choices
/** A described fact that may be marked as guessed. */
export type GuessedFact = keyof typeof table.guessed

export type NotedFigure = Noted & { value: number }

/** The same figures as the quick description fills in. */
const SHARED: Readonly<Record<string, number>> = {
  ambientC: assumed.temperatures.ambientC.value,
  insulationMm: assumed.insulation.unknown.insulationMm,
  insulationConductivityWPerMK: assumed.insulation.conductivityWPerMK.value,
  storageHeaterL: assumed.volumes.storageHeaterL.value,
  coldTankL: assumed.volumes.coldTankL.value,
  temperedC: assumed.temperatures.temperedC.value,
}

interface Figure extends Sourced {
  text: string
  value?: number
  unit: string
  lower: number
  upper: number
}

/** A filled-in figure in words, with its range; `value` where another is to be tried. */
export function filledIn(id: FilledIn, value?: number): NotedFigure {
  const figure: Figure = table.figures[id]
  const taken = value ?? figure.value ?? SHARED[id]
  if (taken === undefined) throw new RangeError(`Cannot fill in ${id} because it has no value`)
  const { unit, lower, upper } = figure
  return {
    id,
    text: figure.text.replace('{value}', String(taken)),
    value: taken,
    unit,
    range: { lower, upper },
    source: sourceWords(figure),
  }
}

interface Sourced {
  source: string
  known: string
}

/** A source in words; what is only remembered says so. */
export const sourceWords = ({ source, known }: Sourced): string =>
  known !== 'memory' || /no source|from memory/.test(source) ? source : `${source}; from memory`

/** A choice in words. */
export const choice = (id: Choice): Noted => ({
  id,
  text: table.choices[id].text,
  source: sourceWords(table.choices[id]),
})

/** How far off a guessed fact may be, with the factor or shift that is taken. */
export interface Guess {
  /** True where it is moved by so many kelvin, false where it is multiplied. */
  shifts: boolean
  assumption: NotedFigure
}

export function guessed(fact: GuessedFact, tried: Readonly<Record<string, number>> = {}): Guess {
  const { text, unit, value, lower, upper, ...told } = table.guessed[fact]
  const source = sourceWords(told)
  const id = `guessed:${fact}`
  const words = `${text}: as described, marked guessed`
  const shifts = unit === table.guessed.temperatureC.unit
  return { shifts, assumption: { id, text: words, value: tried[id] ?? value, unit, range: { lower, upper }, source } }
}

/** The use usual for a kind of outlet, in words. */
export function assumedUseNote({ kind, named, use }: { kind: ComponentKind; named: string; use: Use }): NotedFigure {
  const { text, unit, value, lower, upper, source: ofRange } = table.figures.use
  const source = `${assumedUseSource(kind)}; ${ofRange}`
  const words = text.replace('{kind}', named).replace('{use}', useWords(use))
  return { id: `use:${kind}`, text: words, value, unit, range: { lower, upper }, source }
}

/** A described use that is marked guessed, by kind of outlet. */
export function guessedUseNote({ kind, named }: { kind: string; named: string }): NotedFigure {
  const { unit, value, lower, upper, source } = table.guessed.use
  const words = `Use of each ${named}: as described, marked guessed`
  return { id: `guessed:use:${kind}`, text: words, value, unit, range: { lower, upper }, source }
}

function useWords(use: Use): string {
  if (use.pattern !== 'pulses') return use.pattern === 'unused' ? 'none' : use.pattern
  const { eventsPerDay, minutes, flowLPerMin, mixToC } = use
  const mixed = mixToC === undefined ? '' : `, mixed to ${mixToC} °C`
  return `${eventsPerDay} a day, ${minutes} min at ${flowLPerMin} L/min${mixed}`
}
