import { parseArgs } from 'node:util'
import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import type { SystemProblem } from '@rillmark/casebook/building/check-parts.ts'
import { checkSystem, isUsable } from '@rillmark/casebook/building/check-system.ts'
import {
  type QuickDescription,
  quickDescriptionSchema,
  shapeOf,
} from '@rillmark/casebook/building/quick-description.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { waterSystemSchema } from '@rillmark/casebook/building/water-system.ts'
import { drawSystem } from '@rillmark/casebook/drawing/draw-scene.ts'
import { sceneToSvg } from '@rillmark/casebook/drawing/svg.ts'
import { UNIT_SYSTEMS, unitsOf } from '@rillmark/casebook/units/display-units.ts'
import { issuesFromZod } from '@rillmark/science/catalogue/from-zod.ts'
import { type Issue, issue, issueLine } from '@rillmark/science/catalogue/issue.ts'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { readJson, writeOutput } from './files.ts'
import { reportProblems } from './problems.ts'

const HELP = `Usage: rillmark system build FILE [-o system.json]
       rillmark system check FILE [--json]
       rillmark system draw FILE [-o drawing.svg] [--theme light|dark|paper]
                            [--detail auto|all|collapsed] [--units metric|us]
       rillmark system conditions FILE [--json] [--all] [--seed N] [--days N]
                            [--series FILE] [--units metric|us] [-o OUT]
                            [--why ID]... [--how-sure] [--fitted FIT]
       rillmark system fit FILE READINGS [--json] [--seed N] [--units metric|us]
                            [-o OUT]

Describes a building's water. FILE is JSON; - or no FILE reads standard input.

  build  makes a full water system of a quick description; what the description
         does not say is filled in and marked guessed
  check  names every problem of a water system, all at once: errors stop
         simulation and planning, warnings ask to be looked at
  draw   draws the riser diagram as SVG
  conditions
         simulates the building's water over a repeating day: how hot, how old,
         how disinfected and how favourable to growth it is at every part. A
         screening model: it shows where to look first, it replaces no reading
  fit    fits the simulation's uncertain inputs to READINGS (JSON or CSV:
         component, circuit, temperatureC or residualMgPerL, seconds since the
         tap was opened, at): ranges before and after, measured against
         predicted, and what is not as described, with the likeliest reason

  -o, --out  writes to a file instead of standard output
  --json     problems as a JSON list; conditions as JSON
  --units    units on the drawing and in the table: metric as in the file, or us
             (°F, US gallons). Files stay metric
  --all      every place instead of the first 20
  --seed     of the times of use (1); the same seed gives the same answer
  --days     the most days to simulate until the day repeats itself (60)
  --why ID   instead, why the water of a component or pipe is as it is, in words;
             may be given several times
  --how-sure instead, how far each guess moves it; as many simulations as two a
             guess
  --fitted   takes the values of FIT, the answer of "system fit --json", in place
             of those described
  --series   writes the day in quarter hours as JSON: a row for each part

"rillmark schema quick-description", "rillmark schema water-system" and "rillmark
schema conditions" give the formats. Ends with 0 on success, 2 when the input
can't be used (check: when there is an error; conditions: when nothing can be
said, with a line for each reason), 1 on an internal failure.
`

export const systemCommand: Command = {
  name: 'system',
  help: HELP,
  run: system,
}

interface Asked {
  file: string | undefined
  out: string | undefined
  json: boolean
  theme: string
  detail: string
  units: string
}

type Act = (asked: Asked, io: CommandIo) => Promise<number>

const ACTS: Record<string, Act | undefined> = { build, check, draw }
const THEMES = ['light', 'dark', 'paper'] as const
const DETAILS = ['auto', 'all', 'collapsed'] as const

async function system(args: string[], io: CommandIo): Promise<number> {
  const [name = '', ...rest] = args
  if (name === 'fit') return (await import('./fit.ts')).systemFit(rest, io)
  if (name === 'conditions') return (await import('./conditions.ts')).systemConditions(rest, io)
  const act = Object.hasOwn(ACTS, name) ? ACTS[name] : undefined
  if (act === undefined)
    return reportProblems(
      [{ path: 'arguments', expected: 'build, check, draw, conditions or fit', received: name || 'nothing' }],
      io,
    )
  const asked = readOptions(rest)
  return 'issue' in asked ? reportProblems([asked.issue], io) : act(asked, io)
}

function readOptions(args: string[]): Asked | { issue: Issue } {
  const wrong = (expected: string, received: string): { issue: Issue } => ({
    issue: { path: 'arguments', expected, received },
  })
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: {
        out: { type: 'string', short: 'o' },
        json: { type: 'boolean', default: false },
        theme: { type: 'string', default: 'light' },
        detail: { type: 'string', default: 'auto' },
        units: { type: 'string', default: 'metric' },
      },
    })
    if (positionals.length > 1) return wrong('one FILE', positionals.join(' '))
    return { ...values, file: positionals[0], out: values.out }
  } catch {
    return wrong('a FILE, -o, --json, --theme, --detail or --units', args.join(' '))
  }
}

async function build(asked: Asked, io: CommandIo): Promise<number> {
  const read = await readJson(asked.file, io)
  if ('issues' in read) return reportProblems(read.issues, io)
  const parsed = quickDescriptionSchema.safeParse(read.value)
  if (!parsed.success) return reportProblems(issuesFromZod(parsed.error, read.value), io)
  const nowhere = overridesNowhere(parsed.data)
  if (nowhere.length > 0) return reportProblems(nowhere, io)
  return write(`${JSON.stringify(buildSystem(parsed.data), null, 2)}\n`, { out: asked.out, io })
}

/** Overrides of a floor or riser the building does not have: their outlets would be lost without a word. */
function overridesNowhere(description: QuickDescription): Issue[] {
  const { floors, risers } = shapeOf(description)
  return (description.overrides ?? []).flatMap(({ floor, riser }, index) => {
    const at = (field: string): string => `overrides.${index}.${field}`
    return [
      ...(floor === undefined || floors.includes(floor)
        ? []
        : [issue(at('floor'), { expected: `a floor from ${floors[0]} to ${floors.at(-1)}`, received: floor })]),
      ...(riser === undefined || risers.includes(riser)
        ? []
        : [issue(at('riser'), { expected: `one of the risers ${risers.join(', ')}`, received: riser })]),
    ]
  })
}

async function check(asked: Asked, io: CommandIo): Promise<number> {
  const read = await readJson(asked.file, io)
  if ('issues' in read) return reportProblems(read.issues, io)
  const problems = checkSystem(read.value)
  if (asked.json) io.out(`${JSON.stringify(problems, null, 2)}\n`)
  else if (problems.length === 0) io.out('No problems found.\n')
  for (const problem of problems)
    if (!asked.json) io.err(`${problem.severity}: ${issueLine(problem)}${about(problem)}\n`)
  return isUsable(problems) ? exitCode.success : exitCode.unusableInput
}

const about = ({ component }: SystemProblem): string => (component === undefined ? '' : ` (${component})`)

async function draw(asked: Asked, io: CommandIo): Promise<number> {
  const theme = THEMES.find((one) => one === asked.theme)
  const detail = DETAILS.find((one) => one === asked.detail)
  if (theme === undefined)
    return reportProblems([{ path: '--theme', expected: THEMES.join(', '), received: asked.theme }], io)
  if (detail === undefined)
    return reportProblems([{ path: '--detail', expected: DETAILS.join(', '), received: asked.detail }], io)
  const units = UNIT_SYSTEMS.find((one) => one === asked.units)
  if (units === undefined)
    return reportProblems([{ path: '--units', expected: UNIT_SYSTEMS.join(', '), received: asked.units }], io)
  const read = await readSystem(asked, io)
  if (typeof read === 'number') return read
  return write(sceneToSvg(drawSystem(read, { detail, units: unitsOf(units) }), { theme }), { out: asked.out, io })
}

/** A system good enough to draw: readable in every part, problems of plumbing allowed. */
async function readSystem(asked: Asked, io: CommandIo): Promise<WaterSystem | number> {
  const read = await readJson(asked.file, io)
  if ('issues' in read) return reportProblems(read.issues, io)
  const parsed = waterSystemSchema.safeParse(read.value)
  return parsed.success ? parsed.data : reportProblems(issuesFromZod(parsed.error, read.value), io)
}

async function write(content: string, { out, io }: { out: string | undefined; io: CommandIo }): Promise<number> {
  const issues = await writeOutput({ file: out, content }, io)
  return issues.length === 0 ? exitCode.success : reportProblems(issues, io)
}
