import { parseArgs } from 'node:util'
import { checkSystem } from '@rillmark/casebook/building/check-system.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { simulateConditions } from '@rillmark/casebook/conditions/simulate-conditions.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import { makePlan } from '@rillmark/casebook/plan/make-plan.ts'
import {
  planInputOf,
  type PlanPredictions,
  planPredictions,
  planRequestSchema,
} from '@rillmark/casebook/plan/plan-input.ts'
import { PROCEDURES } from '@rillmark/casebook/procedures/procedures.ts'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { readJson, writeOutput } from './files.ts'
import { planTable } from './plan-table.ts'
import { progressLine } from './progress-line.ts'
import { reportProblems } from './problems.ts'

const HELP = `Usage: rillmark plan FILE [--simulate] [--json] [-o OUT]
       rillmark plan < request.json

Makes a sampling plan. FILE holds JSON:

  { "system": a rillmark/water-system@1,
    "budget": { "samples": 40, "hours"?: 6, "teams"?: 2, "perPointMinutes"?: 15 },
    "cases"?: [ { "code": "MH-01", "exposures": [ { "place": "room 604", "component"?: id, "kind"?: "shower" } ] } ],
    "obligations"?: [ { "component": id, "text": why } or id, … ],
    "exclude"?: [ { "component": id, "text": why }, … ],
    "sweep"?, "history"?: as in the building step,
    "prior"?: { "local-outlets"?, "one-riser"?, "hot-system"?, "cold-supply"?: weights },
    "sensitivity"?: chance that a sample of a colonised point is found positive,
    "predictions"?: what rillmark system conditions --json said of this system }

Prints the stops in walking order with the reasons for each, what the plan can
and can't detect, and what was left out with its cost.

  --simulate  simulate the building's water first and take its lists as reasons
              (a screening model); without it nothing is simulated
  --json  the whole plan as rillmark/plan@1 (see rillmark schema plan)
  -o OUT  write to a file

Points are kept in order of obligation until the budget ends; it is not claimed
that no better plan exists. Chances are counted as if outlets were drawn at random.

Ends with 0 on success, 2 when the input can't be used (a line on standard
error for each problem), 1 on an internal failure.
`

/** Where a system names what it has not, or two things by one name, no plan can be trusted. */
const JOINS = /\.(id|from|to)$/

export const planCommand: Command = {
  name: 'plan',
  help: HELP,
  run: plan,
}

async function plan(args: string[], io: CommandIo): Promise<number> {
  const asked = readArguments(args)
  if (asked === undefined) {
    const expected = 'FILE, --simulate, --json, -o OUT'
    return reportProblems([{ path: 'arguments', expected, received: args.join(' ') }], io)
  }
  const read = await readJson(asked.file, io)
  if ('issues' in read) return reportProblems(read.issues, io)
  const request = parseWith(planRequestSchema, read.value)
  if (!request.ok) return reportProblems(request.issues, io)
  const problems = checkSystem(request.value.system).map((each) => ({ ...each, path: `system.${each.path}` }))
  const broken = problems.filter(({ severity, path }) => severity === 'error' && JOINS.test(path))
  if (broken.length > 0) return reportProblems(broken, io)
  if (problems.length > 0)
    io.err(`${problems.length} problems in the system, see rillmark system check; planned on what is joined\n`)
  const input = planInputOf(request.value, PROCEDURES)
  const predicted = asked.simulate ? simulated(input.system, io) : undefined
  if (predicted !== undefined && 'reasons' in predicted) return reportProblems(predicted.reasons, io)
  const made = makePlan(predicted === undefined ? input : { ...input, predictions: predicted })
  const content = asked.json ? `${JSON.stringify(made, null, 2)}\n` : planTable(made)
  const issues = await writeOutput({ file: asked.out, content }, io)
  return issues.length > 0 ? reportProblems(issues, io) : exitCode.success
}

/** Curves in half hours tell at what time of the day water is warmest. */
const SLOTS = 48

function simulated(system: WaterSystem, io: CommandIo): PlanPredictions | { reasons: Issue[] } {
  const line = progressLine(io)
  const answer = simulateConditions(system, { slots: SLOTS, progress: line.progress })
  line.done()
  if (answer.kind === 'conditions')
    return planPredictions({ system, conditions: answer.conditions, series: answer.series })
  return {
    reasons: answer.reasons.map(({ at, why, needs }) => ({ path: `system.${at}`, expected: needs, received: why })),
  }
}

interface Asked {
  file: string | undefined
  json: boolean
  simulate: boolean
  out: string | undefined
}

function readArguments(args: string[]): Asked | undefined {
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: {
        json: { type: 'boolean', default: false },
        simulate: { type: 'boolean', default: false },
        out: { type: 'string', short: 'o' },
      },
    })
    if (positionals.length > 1) return undefined
    return { file: positionals[0], json: values.json, simulate: values.simulate, out: values.out }
  } catch {
    return undefined
  }
}
