import { parseArgs } from 'node:util'
import { checkSystem } from '@rillmark/casebook/building/check-system.ts'
import { type WaterSystem, waterSystemSchema } from '@rillmark/casebook/building/water-system.ts'
import { calibrate } from '@rillmark/casebook/calibration/calibrate.ts'
import { type FieldReadingsFile, fieldReadingsSchema } from '@rillmark/casebook/calibration/field-reading.ts'
import { readingsOfFile } from '@rillmark/casebook/calibration/readings-of-file.ts'
import { USUAL_SEED } from '@rillmark/casebook/conditions/simulate-conditions.ts'
import { UNIT_SYSTEMS, type UnitSystem, unitsOf } from '@rillmark/casebook/units/display-units.ts'
import { fieldReadingsCsv } from '@rillmark/exchange/readings/field-readings-csv.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type CommandIo, exitCode } from './command.ts'
import { readJson, readText, writeOutput } from './files.ts'
import { fitTable } from './fit-table.ts'
import { reportProblems } from './problems.ts'
import { progressLine } from './progress-line.ts'

const LARGEST_SEED = 4_294_967_295

interface Asked {
  file: string
  readings: string
  out: string | undefined
  json: boolean
  seed: number
  units: UnitSystem
}

/** `rillmark system fit`: the simulation's uncertain inputs, fitted to readings, and what is not as described. */
export async function systemFit(args: string[], io: CommandIo): Promise<number> {
  const asked = readOptions(args)
  if ('issue' in asked) return reportProblems([asked.issue], io)
  const read = await readJson(asked.file, io)
  if ('issues' in read) return reportProblems(read.issues, io)
  const problems = checkSystem(read.value).filter(({ severity }) => severity === 'error')
  if (problems.length > 0) return reportProblems(problems, io)
  const measured = await readReadings(asked.readings, io)
  if ('issues' in measured) return reportProblems(measured.issues, io)
  return answer({ asked, system: waterSystemSchema.parse(read.value), measured }, io)
}

async function answer(
  { asked, system, measured }: { asked: Asked; system: WaterSystem; measured: FieldReadingsFile },
  io: CommandIo,
): Promise<number> {
  const line = progressLine(io)
  const progress = (runs: number, ofAbout: number): void => line.progress?.(runs / ofAbout)
  const fit = calibrate(system, { readings: readingsOfFile(measured), seed: asked.seed, progress })
  line.done()
  if (fit.kind === 'not fitted')
    return reportProblems([{ path: 'FILE', expected: 'a building and readings of it', received: fit.why }], io)
  const { system: fittedSystem, ...rest } = fit
  const changed = fittedSystem === system ? {} : { system: fittedSystem }
  const content = asked.json
    ? `${JSON.stringify({ ...rest, ...changed }, null, 2)}\n`
    : fitTable(system, { fit, units: unitsOf(asked.units) })
  const issues = await writeOutput({ file: asked.out, content }, io)
  return issues.length > 0 ? reportProblems(issues, io) : exitCode.success
}

/** JSON begins with a bracket, a table with the name of a column. */
async function readReadings(file: string, io: CommandIo): Promise<FieldReadingsFile | { issues: Issue[] }> {
  const read = await readText(file, io)
  if ('issues' in read) return read
  const text = read.text.replace(/^\uFEFF/, '').trim()
  const given = text.startsWith('{') ? jsonOf(text) : fieldReadingsCsv(text)
  if ('issues' in given) return { issues: given.issues.map((one) => ({ ...one, path: `READINGS ${one.path}`.trim() })) }
  const parsed = parseWith(fieldReadingsSchema, given.value)
  if (parsed.ok) return parsed.value
  return { issues: parsed.issues.map((one) => ({ ...one, path: `READINGS ${one.path}`.trim() })) }
}

function jsonOf(text: string): { value: unknown } | { issues: Issue[] } {
  try {
    return { value: JSON.parse(text) as unknown }
  } catch {
    return { issues: [{ path: '', expected: 'JSON or a CSV table', received: 'neither' }] }
  }
}

function readOptions(args: string[]): Asked | { issue: Issue } {
  const wrong = (path: string, { expected, received }: { expected: string; received: string }) => ({
    issue: { path, expected, received },
  })
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: {
        out: { type: 'string', short: 'o' },
        json: { type: 'boolean', default: false },
        seed: { type: 'string', default: String(USUAL_SEED) },
        units: { type: 'string', default: 'metric' },
      },
    })
    const [file, readings, ...more] = positionals
    if (file === undefined || readings === undefined || more.length > 0)
      return wrong('arguments', { expected: 'FILE and READINGS', received: positionals.join(' ') || 'nothing' })
    const units = UNIT_SYSTEMS.find((one) => one === values.units)
    if (units === undefined) return wrong('--units', { expected: UNIT_SYSTEMS.join(' or '), received: values.units })
    if (!/^\d+$/.test(values.seed) || Number(values.seed) > LARGEST_SEED)
      return wrong('--seed', { expected: `a whole number up to ${LARGEST_SEED}`, received: values.seed })
    return { file, readings, out: values.out, json: values.json, seed: Number(values.seed), units }
  } catch {
    return wrong('arguments', { expected: 'FILE, READINGS, --json, --seed, --units or -o', received: args.join(' ') })
  }
}
