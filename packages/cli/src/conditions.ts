import { parseArgs } from 'node:util'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { CannotSay, Conditions, ConditionsSeries } from '@rillmark/casebook/conditions/conditions.ts'
import { explainPlace } from '@rillmark/casebook/conditions/explain-place.ts'
import { runSensitivity } from '@rillmark/casebook/conditions/sensitivity.ts'
import { simulateConditions } from '@rillmark/casebook/conditions/simulate-conditions.ts'
import { USUAL_SEED } from '@rillmark/casebook/conditions/usual-seed.ts'
import { UNIT_SYSTEMS, type UnitSystem, unitsOf } from '@rillmark/casebook/units/display-units.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { type CommandIo, exitCode } from './command.ts'
import { conditionsTable } from './conditions-table.ts'
import { asFittedText, howSureText, whyText } from './conditions-words.ts'
import { writeOutput } from './files.ts'
import { type FittedFromFile, readFitted } from './fitted-file.ts'
import { isWhole, seedIssues, unitsIssues } from './option-issues.ts'
import { reportProblems } from './problems.ts'
import { progressLine } from './progress-line.ts'
import { readSoundSystem } from './sound-system.ts'

/** Curves in quarter hours. */
const SERIES_SLOTS = 96
const MOST_DAYS = 1000
/** Digits of a curve: more than any of it is known to. */
const SERIES_DIGITS = 5

interface Asked {
  file: string | undefined
  out: string | undefined
  series: string | undefined
  json: boolean
  all: boolean
  /** ids of the parts to explain, instead of the table */
  why: readonly string[]
  /** how far each guess moves it, instead of the table */
  howSure: boolean
  seed: number
  mostDays: number | undefined
  units: UnitSystem
  /** the answer of a fit, whose values are taken in place of those described */
  fitted: string | undefined
}

/** `rillmark system conditions`: a building's water, simulated over a repeating day. */
export async function systemConditions(args: string[], io: CommandIo): Promise<number> {
  const asked = readOptions(args)
  if ('issues' in asked) return reportProblems(asked.issues, io)
  const read = await readSoundSystem(asked.file, io)
  if ('issues' in read) return reportProblems(read.issues, io)
  const { system } = read
  const taken = asked.fitted === undefined ? undefined : await readFitted(asked.fitted, { system, io })
  if (taken !== undefined && 'issues' in taken) return reportProblems(taken.issues, io)
  return answer({ asked, system, taken }, io)
}

interface Answering {
  asked: Asked
  system: WaterSystem
  taken: FittedFromFile | undefined
}

async function answer({ asked, system, taken }: Answering, io: CommandIo): Promise<number> {
  const { seed, mostDays, series: wanted } = asked
  const overrides = taken?.overrides
  const unknown = unknownParts(system, asked.why)
  if (unknown.length > 0) return reportProblems(unknown, io)
  const line = progressLine(io)
  const slots = wanted === undefined ? undefined : SERIES_SLOTS
  const answered = simulateConditions(system, { seed, mostDays, slots, overrides, progress: line.progress })
  line.done()
  if (answered.kind === 'cannot-say') return reportReasons(answered.reasons, io)
  const { conditions, series } = answered
  const content = contentOf({ asked, system, taken, conditions }, io)
  const issues = await writeOutput({ file: asked.out, content }, io)
  if (wanted !== undefined && series !== undefined)
    issues.push(...(await writeOutput({ file: wanted, content: `${JSON.stringify(plainSeries(series))}\n` }, io)))
  return issues.length > 0 ? reportProblems(issues, io) : exitCode.success
}

function unknownParts({ components, pipes }: WaterSystem, why: readonly string[]): Issue[] {
  const ids = new Set([...components, ...pipes].map(({ id }) => id))
  return why
    .filter((id) => !ids.has(id))
    .map((id) => ({ path: '--why', expected: 'the id of a component or pipe of the system', received: id }))
}

/** What was asked for of the answer: reasons, sureness, or the answer itself; as JSON or in words. */
function contentOf(
  { asked, system, taken, conditions }: Answering & { conditions: Conditions },
  io: CommandIo,
): string {
  const units = unitsOf(asked.units)
  const asJson = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`
  if (asked.why.length > 0) {
    const explanations = asked.why.map((id) => explainPlace({ system, conditions, id, units }))
    return asked.json ? asJson(explanations) : whyText(explanations)
  }
  if (asked.howSure) {
    const line = progressLine(io)
    const sensitivity = runSensitivity({ system, conditions, overrides: taken?.overrides, progress: line.progress })
    line.done()
    return asked.json ? asJson(sensitivity) : howSureText(sensitivity, units)
  }
  if (asked.json) return asJson(taken === undefined ? conditions : { ...conditions, fitted: taken.fitted })
  const as = taken === undefined ? '' : asFittedText(taken.fitted, units)
  return `${as}${conditionsTable({ system, conditions }, { units, all: asked.all })}`
}

function reportReasons(reasons: readonly CannotSay[], io: CommandIo): number {
  for (const { at, why, needs } of reasons) io.err(`${at}: expected ${needs}, received none: ${why}\n`)
  return exitCode.unusableInput
}

/** Curves as lists of numbers: a row for each id, a value for each span. */
function plainSeries({ slots, pipeIds, componentIds, pipes, components }: ConditionsSeries): unknown {
  const rows = (curves: Readonly<Record<string, Float32Array>>): Record<string, number[][]> =>
    Object.fromEntries(
      Object.entries(curves).map(([quantity, values]) => [
        quantity,
        Array.from({ length: values.length / slots }, (_, row) =>
          [...values.subarray(row * slots, (row + 1) * slots)].map((value) => Number(value.toPrecision(SERIES_DIGITS))),
        ),
      ]),
    )
  return { slots, pipeIds, componentIds, pipes: rows(pipes), components: rows(components) }
}

function readOptions(args: string[]): Asked | { issues: Issue[] } {
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: {
        out: { type: 'string', short: 'o' },
        series: { type: 'string' },
        json: { type: 'boolean', default: false },
        all: { type: 'boolean', default: false },
        why: { type: 'string', multiple: true, default: [] },
        'how-sure': { type: 'boolean', default: false },
        seed: { type: 'string', default: String(USUAL_SEED) },
        days: { type: 'string' },
        units: { type: 'string', default: 'metric' },
        fitted: { type: 'string' },
      },
    })
    const wrong = wrongOptions({ ...values, files: positionals.length })
    if (wrong.length > 0) return { issues: wrong }
    const units = UNIT_SYSTEMS.find((one) => one === values.units) ?? 'metric'
    const mostDays = values.days === undefined ? undefined : Number(values.days)
    const { out, series, json, all, seed, why, fitted, 'how-sure': howSure } = values
    return { file: positionals[0], out, series, json, all, why, howSure, seed: Number(seed), mostDays, units, fitted }
  } catch {
    const expected = 'a FILE, --json, --all, --why, --how-sure, --seed, --days, --series, --fitted, --units or -o'
    return { issues: [{ path: 'arguments', expected, received: args.join(' ') }] }
  }
}

function wrongOptions(given: { files: number; seed: string; days?: string | undefined; units: string }): Issue[] {
  const issues: Issue[] = []
  if (given.files > 1) issues.push(statedIssue('arguments', { expected: 'one FILE', received: given.files }))
  issues.push(...seedIssues(given.seed), ...unitsIssues(given.units))
  if (given.days !== undefined && !isWhole(given.days, { least: 1, most: MOST_DAYS }))
    issues.push({ path: '--days', expected: `a whole number from 1 to ${MOST_DAYS}`, received: given.days })
  return issues
}
