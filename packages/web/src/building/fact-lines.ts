import { kindWord } from '@rillmark/casebook/building/labels.ts'
import type { Component, Pipe, Supply, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { knownByOf } from '@rillmark/casebook/building/water-system.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { show } from '@rillmark/casebook/units/display.ts'
import type { FactLine } from './FactsView.tsx'
import { COMPONENT_LABELS, PIPE_LABELS } from './facts.ts'
import { circuitWord, DISINFECTANT_WORDS, nameIn, useWords } from './words.ts'

type Words = (value: never, units: DisplayUnits) => string

const per =
  (unit: string): Words =>
  (value: number, units) =>
    show(value, { unit, units }).words
const [litres, degrees, size] = [per('L'), per('°C'), per('mm')]

const VALUE_WORDS: Readonly<Record<string, Words>> = {
  kind: kindWord as Words,
  volumeL: litres,
  setpointC: degrees,
  temperatureC: degrees,
  ambientC: degrees,
  flowLPerMin: per('L/min'),
  recirculationLPerMin: per('L/min'),
  heatLossWPerK: per('W/K'),
  lengthM: per('m'),
  boreMm: size,
  outsideDiameterMm: size,
  insulationMm: size,
  roughnessMm: size,
  insulationConductivityWPerMK: per('W/(m K)'),
  circuit: circuitWord as Words,
  use: useWords as Words,
}

const SILENT: ReadonlySet<string> = new Set(['id', 'provenance'])

/** What is said of a component, a line a fact, in the units the person prefers. */
export const componentLines = (component: Component, units: DisplayUnits): FactLine[] =>
  linesOf(component, { labels: COMPONENT_LABELS, units })

export function pipeLines(pipe: Pipe, given: { system: WaterSystem; units: DisplayUnits }): FactLine[] {
  const lines = linesOf(pipe, { labels: PIPE_LABELS, units: given.units })
  return lines.map((line) =>
    line.name === 'from' || line.name === 'to' ? { ...line, value: nameIn(given.system, line.value) } : line,
  )
}

export function supplyLines(supply: Supply, units: DisplayUnits): FactLine[] {
  const { kind, residualMgPerL } = supply.disinfectant
  const residual = residualMgPerL === undefined ? '' : `, ${residualMgPerL} mg/L`
  const first = {
    name: 'disinfectant',
    label: 'Disinfectant',
    value: `${DISINFECTANT_WORDS[kind]}${residual}`,
    known: knownByOf(supply, 'disinfectant'),
  }
  const { disinfectant: _, ...rest } = supply
  const labels = { temperatureC: 'Arrives at', pH: 'pH', notes: 'Notes' }
  return [first, ...linesOf(rest, { labels, units })]
}

interface How {
  readonly labels: Readonly<Record<string, string>>
  readonly units: DisplayUnits
}

function linesOf(thing: Component | Pipe | Omit<Supply, 'disinfectant'>, { labels, units }: How): FactLine[] {
  return Object.entries(thing)
    .filter(([name, value]) => value !== undefined && !SILENT.has(name))
    .map(([name, value]) => ({
      name,
      label: labels[name] ?? name,
      value: VALUE_WORDS[name]?.(value as never, units) ?? String(value),
      known: knownByOf(thing, name),
    }))
}
