import coldReadings from '@rillmark/reference/procedures/cold-readings.json' with { type: 'json' }
import device from '@rillmark/reference/procedures/device.json' with { type: 'json' }
import duplicate from '@rillmark/reference/procedures/duplicate.json' with { type: 'json' }
import fieldBlank from '@rillmark/reference/procedures/field-blank.json' with { type: 'json' }
import hotReadings from '@rillmark/reference/procedures/hot-readings.json' with { type: 'json' }
import recirculationReturn from '@rillmark/reference/procedures/recirculation-return.json' with { type: 'json' }
import shower from '@rillmark/reference/procedures/shower.json' with { type: 'json' }
import storageHeaterDrain from '@rillmark/reference/procedures/storage-heater-drain.json' with { type: 'json' }
import supplyEntry from '@rillmark/reference/procedures/supply-entry.json' with { type: 'json' }
import tanklessHeater from '@rillmark/reference/procedures/tankless-heater.json' with { type: 'json' }
import tap from '@rillmark/reference/procedures/tap.json' with { type: 'json' }
import type { SampleKind } from '../entry/fields.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { type Procedure, type ProcedureStep, procedureSchema, readProcedure } from './procedure.ts'

/** The procedures that come with the program, in the order they are offered. */
export const PROCEDURES: readonly Procedure[] = [
  shower,
  tap,
  hotReadings,
  coldReadings,
  storageHeaterDrain,
  tanklessHeater,
  recirculationReturn,
  supplyEntry,
  device,
  fieldBlank,
  duplicate,
].map((procedure) => procedureSchema.parse(procedure))

/** A procedure by id; a user's own with the same id takes the place of the built-in one, as a jurisdiction may require. */
export function findProcedure(id: string, own: readonly Procedure[] = []): Procedure | undefined {
  return [...own, ...PROCEDURES].find((procedure) => procedure.id === id)
}

/** The procedures made for a kind of component, those that take a given kind of sample if one is named. */
export function proceduresFor(
  component: string,
  { sampleKind, among = PROCEDURES }: { sampleKind?: SampleKind; among?: readonly Procedure[] } = {},
): Procedure[] {
  return among.filter(
    ({ components, sampleKinds }) =>
      (components.length === 0 || components.includes(component)) &&
      (sampleKind === undefined || sampleKinds.includes(sampleKind)),
  )
}

/** The steps to lead through for the samples a stop asks for: steps that only serve a sample not asked for fall away, the order stays. */
export function stepsFor(procedure: Procedure, wanted: readonly SampleKind[]): ProcedureStep[] {
  return procedure.steps.filter(({ serves }) => serves === undefined || wanted.includes(serves))
}

/** Accepts a user's own procedure: checked by the schema; it may replace a built-in one only with another version. */
export function acceptOwnProcedure(input: unknown): { ok: true; value: Procedure } | { ok: false; issues: Issue[] } {
  const read = readProcedure(input)
  if (!read.ok) return read
  const { id, version } = read.value
  if (!PROCEDURES.some((procedure) => procedure.id === id && procedure.version === version)) return read
  const expected = 'a version other than that of the built-in procedure it replaces'
  return { ok: false, issues: [issue('version', { expected, received: version })] }
}
