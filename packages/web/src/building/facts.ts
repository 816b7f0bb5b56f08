import type { Component, ComponentKind, Pipe, Supply } from '@rillmark/casebook/building/water-system.ts'
import {
  CIRCUITS,
  COMPONENT_KINDS,
  componentSchema,
  isHeater,
  isOutlet,
  pipeSchema,
  supplySchema,
} from '@rillmark/casebook/building/water-system.ts'
import { drawsFrom, drawsText, flattenUse, nestUse } from '@rillmark/casebook/building/table-columns.ts'
import { kindWord } from '@rillmark/casebook/building/labels.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { readTypedQuantity } from '../form/typed-quantity.ts'
import { circuitWord, DISINFECTANT_CHOICES } from './words.ts'

/** One fact of a part as its form asks for it. */
export interface FactField {
  readonly name: string
  readonly label: string
  readonly kind: 'text' | 'long' | 'number' | 'whole' | 'choice' | 'part' | 'draws'
  readonly unit?: string
  readonly choices?: readonly { readonly id: string; readonly label: string }[]
  /** The fact of the record it belongs to, where several fields make one. */
  readonly of?: string
}

/** A part's facts as text, as they stand in the form. */
export type FactsDraft = Readonly<Record<string, string>>

const number = (name: string, label: string, unit: string): FactField => ({ name, label, kind: 'number', unit })
const text = (name: string, label: string): FactField => ({ name, label, kind: 'text' })
const use = (field: FactField): FactField => ({ ...field, of: 'use' })

const PLACE: readonly FactField[] = [
  {
    name: 'kind',
    label: 'Kind',
    kind: 'choice',
    choices: COMPONENT_KINDS.map((id) => ({ id, label: kindWord(id) })),
  },
  text('label', 'Name'),
  { name: 'floor', label: 'Floor', kind: 'whole' },
  text('riser', 'Riser'),
  text('room', 'Room'),
  text('zone', 'Zone'),
]
const NOTES: FactField = { name: 'notes', label: 'Notes', kind: 'long' }
const VOLUME = number('volumeL', 'Volume', 'L')
const SETPOINT = number('setpointC', 'Set to', '°C')
const FLOW = number('flowLPerMin', 'Flow', 'L/min')
const LOSS = number('heatLossWPerK', 'Heat loss', 'W/K')
const AMBIENT = number('ambientC', 'Air around it', '°C')

const PATTERN = use({
  name: 'pattern',
  label: 'How it is used',
  kind: 'choice',
  choices: [
    { id: 'pulses', label: 'now and then' },
    { id: 'schedule', label: 'at set times' },
    { id: 'constant', label: 'runs all the time' },
    { id: 'unused', label: 'not used' },
  ],
})
const EVENTS = use(number('eventsPerDay', 'Times a day', '/day'))
const MINUTES = use(number('minutes', 'Minutes each', 'min'))
const RUNS = use(number('flowLPerMin', 'Flow while it runs', 'L/min'))
const MIX = use(number('mixToC', 'Mixed to', '°C'))
const DRAWS = use({ name: 'draws', label: 'Draws, such as 07:30 10 min 9 L/min; 19:00 …', kind: 'draws' })

const USE_FIELDS: Readonly<Record<string, readonly FactField[]>> = {
  pulses: [EVENTS, MINUTES, RUNS, MIX],
  constant: [RUNS, MIX],
  schedule: [DRAWS, MIX],
  unused: [],
}

/** The fields that make sense for a component as it stands in the form. */
export function componentFields(draft: FactsDraft): readonly FactField[] {
  const kind = draft['kind'] as ComponentKind
  if (isOutlet({ kind })) return [...PLACE, PATTERN, ...(USE_FIELDS[draft['pattern'] ?? ''] ?? []), NOTES]
  const stored = isHeater({ kind }) || kind === 'cold-tank' ? [VOLUME] : []
  const set = isHeater({ kind }) || kind === 'mixing-valve' ? [SETPOINT] : []
  const pumped = kind === 'pump' ? [FLOW] : []
  const lost = stored.length > 0 ? [LOSS, AMBIENT] : []
  return [...PLACE, ...stored, ...set, ...pumped, ...lost, NOTES]
}

export const PIPE_FIELDS: readonly FactField[] = [
  { name: 'from', label: 'From', kind: 'part' },
  { name: 'to', label: 'To', kind: 'part' },
  {
    name: 'circuit',
    label: 'Water',
    kind: 'choice',
    choices: CIRCUITS.map((id) => ({ id, label: circuitWord(id) })),
  },
  number('lengthM', 'Length', 'm'),
  number('boreMm', 'Bore', 'mm'),
  number('outsideDiameterMm', 'Outside diameter', 'mm'),
  text('standard', 'Pipe standard'),
  text('size', 'Size in the standard'),
  number('insulationMm', 'Insulation', 'mm'),
  number('insulationConductivityWPerMK', 'Conductivity of it', 'W/(m K)'),
  AMBIENT,
  number('recirculationLPerMin', 'Return flow', 'L/min'),
  text('label', 'Name'),
  NOTES,
]

export const SUPPLY_FIELDS: readonly FactField[] = [
  { name: 'kind', label: 'Disinfectant', kind: 'choice', choices: DISINFECTANT_CHOICES, of: 'disinfectant' },
  { ...number('residualMgPerL', 'Residual', 'mg/L'), of: 'disinfectant' },
  number('temperatureC', 'Arrives at', '°C'),
  number('pH', 'pH', ''),
  NOTES,
]

/** A thing with its facts flat, each as text. */
export function draftOf(thing: Component | Pipe | Supply): FactsDraft {
  return Object.fromEntries(
    Object.entries(flat(thing))
      .filter(([name, value]) => value !== undefined && name !== 'provenance' && name !== 'id')
      .map(([name, value]) => [name, name === 'draws' ? drawsText(value as never) : String(value)]),
  )
}

function flat(thing: Component | Pipe | Supply): Record<string, unknown> {
  if ('disinfectant' in thing) {
    const { disinfectant, ...rest } = thing
    return { ...rest, ...disinfectant }
  }
  return 'circuit' in thing ? { ...thing } : flattenUse(thing)
}

type Read<T> = { ok: true; value: T } | { ok: false; issues: readonly Issue[] }

/** The component a draft stands for; facts its kind does not show are kept as they were. */
export function componentFrom(draft: FactsDraft, before: Component): Read<Component> {
  const fields = componentFields(draft)
  const { use: _, provenance, ...rest } = before
  const shown = new Set(fields.map(({ name }) => name))
  const kept = Object.fromEntries(Object.entries(rest).filter(([name]) => !shown.has(name)))
  const keptUse = isOutlet({ kind: draft['kind'] as Component['kind'] }) ? {} : { use: before.use }
  return parseWith(componentSchema, clean({ ...kept, ...keptUse, ...nestUse(valuesOf(draft, fields)), provenance }))
}

export function pipeFrom(draft: FactsDraft, before: Pipe): Read<Pipe> {
  const { id, provenance, roughnessMm } = before
  return parseWith(pipeSchema, clean({ id, roughnessMm, ...valuesOf(draft, PIPE_FIELDS), provenance }))
}

export function supplyFrom(draft: FactsDraft, before: Supply): Read<Supply> {
  const { kind, residualMgPerL, ...rest } = valuesOf(draft, SUPPLY_FIELDS)
  const disinfectant = clean({ kind, residualMgPerL })
  return parseWith(supplySchema, clean({ ...rest, disinfectant, provenance: before.provenance }))
}

const clean = (facts: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined))

/** Text that is no number stays text, so that the schema names it. */
function valuesOf(draft: FactsDraft, fields: readonly FactField[]): Record<string, unknown> {
  return clean(Object.fromEntries(fields.map((field) => [field.name, valueOf(field, draft[field.name] ?? '')])))
}

function valueOf({ kind }: FactField, typed: string): unknown {
  if (typed.trim() === '') return undefined
  if (kind === 'draws') return drawsFrom(typed) ?? typed
  if (kind !== 'number' && kind !== 'whole') return typed.trim()
  const read = readTypedQuantity(typed)
  return read.kind === 'number' ? read.value : typed
}

const labelsOf = (fields: readonly FactField[]): Readonly<Record<string, string>> =>
  Object.fromEntries(fields.map(({ name, label }) => [name, label]))

/** What each fact of a component, and of a pipe, is called on screen. */
export const COMPONENT_LABELS = labelsOf([
  ...PLACE,
  VOLUME,
  SETPOINT,
  FLOW,
  LOSS,
  AMBIENT,
  PATTERN,
  EVENTS,
  MINUTES,
  MIX,
  DRAWS,
  { ...PATTERN, name: 'use', label: 'Use' },
  NOTES,
])
export const PIPE_LABELS = labelsOf(PIPE_FIELDS)
