import { parseArgs } from 'node:util'
import { calculations, findCalculation, runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { describeReceived, type Issue, issueLine } from '@rillmark/science/catalogue/issue.ts'
import { calculationFacts, explainCalculation } from './calc-explain.ts'
import { calculationTable } from './calc-table.ts'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { jsonPieces } from './json-pieces.ts'
import { reportProblems } from './problems.ts'
import { progressLine } from './progress-line.ts'

const HELP = `Usage: rillmark calc ID [--json] < input.json
       rillmark calc --list [--json]
       rillmark calc ID --explain [--json]
       rillmark calc --batch < lines.ndjson

Runs one calculation of the trade: input JSON on standard input. At a terminal
the answer is a table to read: the result with its units, cautions and sources.
Into a file or a pipe it is JSON with "result", "sources" and "cautions".

  --list     the calculations, with their ids
  --explain  inputs, units, formula, sources and a worked example of one
  --batch    one {"id": …, "input": …} a line in, one JSON line out for each, in
             order; a bad line gives a line with "error" and the rest go on
  --json     JSON at a terminal too, with every digit and every row; also of
             --list and --explain

A long calculation shows how far it is on standard error where that is a
terminal; Ctrl-C stops it.

Ends with 0 on success, 2 when the input can't be used (a line on standard
error for each problem), 1 on an internal failure.
`

export const calcCommand: Command = {
  name: 'calc',
  help: HELP,
  run: calc,
}

async function calc(args: string[], io: CommandIo): Promise<number> {
  const asked = readArguments(args)
  if ('issues' in asked) return reportProblems(asked.issues, io)
  const { list, batch, explain, json, id } = asked
  if (list) return listCalculations({ json, io })
  if (batch) return runBatch(io)
  const calculation = findCalculation(id)
  if (calculation === undefined) return reportProblems([unknownId(id)], io)
  return explain ? explainOne({ calculation, json, io }) : runOne({ calculation, json, io })
}

interface Asked {
  list: boolean
  batch: boolean
  explain: boolean
  json: boolean
  id: string | undefined
}

function readArguments(args: string[]): Asked | { issues: Issue[] } {
  const flag = { type: 'boolean', default: false } as const
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: { list: flag, batch: flag, explain: flag, json: flag },
    })
    const [id, second] = positionals
    if (second !== undefined)
      return { issues: [{ path: 'arguments', expected: 'one ID', received: positionals.join(' ') }] }
    return { ...values, id }
  } catch {
    const expected = 'an ID, --list, --batch, --explain or --json'
    return { issues: [{ path: 'arguments', expected, received: args.join(' ') }] }
  }
}

function unknownId(id: string | undefined): Issue {
  const expected = `one of ${calculations.map((each) => each.id).join(', ')}`
  return { path: 'id', expected, received: describeReceived(id) }
}

function listCalculations({ json, io }: { json: boolean; io: CommandIo }): number {
  if (json) {
    io.out(
      `${JSON.stringify(
        calculations.map(({ id, title, purpose }) => ({ id, title, purpose })),
        null,
        2,
      )}\n`,
    )
    return exitCode.success
  }
  const width = Math.max(...calculations.map(({ id }) => id.length))
  for (const { id, title } of calculations) io.out(`${id.padEnd(width)}  ${title}\n`)
  return exitCode.success
}

interface One {
  calculation: Calculation
  json: boolean
  io: CommandIo
}

function explainOne({ calculation, json, io }: One): number {
  io.out(json ? `${JSON.stringify(calculationFacts(calculation), null, 2)}\n` : explainCalculation(calculation))
  return exitCode.success
}

async function runOne({ calculation, json, io }: One): Promise<number> {
  const parsed = parseJson(await io.stdin())
  if ('issues' in parsed) return reportProblems(parsed.issues, io)
  const { progress, done } = progressLine(io)
  const answer = runCalculation({ id: calculation.id, input: parsed.value, progress })
  done()
  if ('issues' in answer) return reportProblems(answer.issues, io)
  const readable = io.terminal === true && !json
  if (readable) io.out(calculationTable(calculation, answer))
  else await writeJson(answer, io)
  return exitCode.success
}

async function writeJson(answer: unknown, io: CommandIo): Promise<void> {
  for (const piece of jsonPieces(answer)) {
    io.out(piece)
    await io.drained?.()
  }
  io.out('\n')
}

/** Answers each line as it comes; the exit code tells whether any could not be used. */
async function runBatch(io: CommandIo): Promise<number> {
  let code: number = exitCode.success
  let broken = false
  let number = 0
  for await (const line of io.stdinLines?.() ?? linesOf(await io.stdin())) {
    number += 1
    if (line.trim() === '') continue
    const answer = answerLine(line)
    io.out(`${JSON.stringify(answer.written)}\n`)
    for (const issue of answer.issues) io.err(`line ${number}: ${issueLine(issue)}\n`)
    if (answer.failure !== undefined) io.err(`line ${number}: failed: ${answer.failure}\n`)
    await io.drained?.()
    broken ||= answer.failure !== undefined
    if (answer.issues.length > 0) code = exitCode.unusableInput
  }
  return broken ? exitCode.internalFailure : code
}

interface LineAnswer {
  written: object
  issues: Issue[]
  /** What went wrong in a calculation that should have answered. */
  failure?: string
}

function answerLine(line: string): LineAnswer {
  const parsed = parseJson(line)
  if ('issues' in parsed) return refused(undefined, parsed.issues)
  const { value } = parsed
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    const expected = 'an object with id and input'
    return refused(undefined, [{ path: '', expected, received: describeReceived(value) }])
  }
  const id: unknown = Reflect.get(value, 'id')
  try {
    const answer = runCalculation({ id, input: Reflect.get(value, 'input') })
    return 'issues' in answer ? refused(id, answer.issues) : { written: { id, ...answer }, issues: [] }
  } catch (error) {
    const failure = error instanceof Error ? error.message : String(error)
    return { written: { id, error: `the calculation failed: ${failure}`, issues: [] }, issues: [], failure }
  }
}

function refused(id: unknown, issues: Issue[]): LineAnswer {
  return { written: { id, error: issues.map(issueLine).join('; '), issues }, issues }
}

function linesOf(text: string): string[] {
  return text.split(/\r?\n/)
}

function parseJson(text: string): { value: unknown } | { issues: Issue[] } {
  try {
    return { value: JSON.parse(text.replace(/^\uFEFF/, '')) as unknown }
  } catch {
    const received = text.trim() === '' ? 'nothing' : describeReceived(text.trim())
    return { issues: [{ path: '', expected: 'JSON', received }] }
  }
}
