import { parseArgs } from 'node:util'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { calibrate } from '@rillmark/casebook/calibration/calibrate.ts'
import { type FieldReadingsFile, fieldReadingsSchema } from '@rillmark/casebook/calibration/field-reading.ts'
import { readingsOfFile } from '@rillmark/casebook/calibration/readings-of-file.ts'
import { USUAL_SEED } from '@rillmark/casebook/conditions/usual-seed.ts'
import { UNIT_SYSTEMS, type UnitSystem, unitsOf } from '@rillmark/casebook/units/display-units.ts'
import { fieldReadingsCsv } from '@rillmark/exchange/readings/field-readings-csv.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type CommandIo, exitCode } from './command.ts'
import { readText, writeOutput } from './files.ts'
import { fitTable } from './fit-table.ts'
import { seedIssues, unitsIssues } from './option-issues.ts'
import { reportProblems } from './problems.ts'
import { progressLine } from './progress-line.ts'
import { readSoundSystem } from './sound-system.ts'

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
  if ('issues' in asked) return reportProblems(asked.issues, io)
  const read = await readSoundSystem(asked.file, io)
  if ('issues' in read) return reportProblems(read.issues, io)
  const measured = await readReadings(asked.readings, io)
  if ('issues' in measured) return reportProblems(measured.issues, io)
  return answer({ asked, system: read.system, measured }, io)
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
  const content = asked.json
    ? `${JSON.stringify(fit, null, 2)}\n`
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

const wrong = (what: { expected: string; received: string }): { issues: Issue[] } => ({
  issues: [{ path: 'arguments', ...what }],
})

function readOptions(args: string[]): Asked | { issues: readonly Issue[] } {
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
      return wrong({ expected: 'FILE and READINGS', received: positionals.join(' ') || 'nothing' })
    const issues = [...unitsIssues(values.units), ...seedIssues(values.seed)]
    if (issues.length > 0) return { issues }
    const units = UNIT_SYSTEMS.find((one) => one === values.units) ?? 'metric'
    return { file, readings, out: values.out, json: values.json, seed: Number(values.seed), units }
  } catch {
    return wrong({ expected: 'FILE, READINGS, --json, --seed, --units or -o', received: args.join(' ') })
  }
}
