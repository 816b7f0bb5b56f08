// Each calculation's worked example through every way there is to it: catalogue, command (alone, in a batch, explained), service, form of its
// page, record and reference page. One descriptor stands behind all of them, so they must say the same to the last digit.
import { checkEntry } from '@rillmark/casebook/rules/check-entry.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { calcCommand } from '@rillmark/cli/calc.ts'
import { calculations, runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { fieldRows } from '@rillmark/science/catalogue/field-rows.ts'
import { METRIC_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { givenBy, runOf } from '@rillmark/web/calculators/calculation-run.ts'
import { workingText, type Worked } from '@rillmark/web/calculators/working.ts'
import { groupDraft } from '@rillmark/web/form/draft.ts'
import { fieldsOf } from '@rillmark/web/form/field-spec.ts'
import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { LOCAL, type ServerUnderTest, serverUnderTest } from './bad-input/server-under-test.ts'

interface Answer {
  readonly result: unknown
  readonly sources: unknown
  readonly cautions: unknown
}

async function command(args: string[], stdin = ''): Promise<{ code: number; out: string; err: string }> {
  const written = { out: '', err: '' }
  const code = await calcCommand.run(args, {
    stdin: async () => stdin,
    out: (text) => void (written.out += text),
    err: (text) => void (written.err += text),
    cwd: '/',
  })
  return { code, ...written }
}

/** As it goes over a wire: what is undefined is not there. */
const sent = (value: unknown): unknown => JSON.parse(JSON.stringify(value))
const page = readFileSync(new URL('../docs/calculations.md', import.meta.url), 'utf8')
let server: ServerUnderTest
let batch: (Answer & { id: string })[] = []

beforeAll(async () => {
  server = await serverUnderTest()
  const lines = calculations.map(({ id, example: { input } }) => JSON.stringify({ id, input }))
  const { out } = await command(['--batch'], `${lines.join('\n')}\n`)
  batch = out
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Answer & { id: string })
})
afterAll(() => server.close())

const ask = (id: string, payload: unknown) =>
  server.app.inject({ method: 'POST', url: `/api/calculations/${id}`, headers: LOCAL, payload: payload as object })

test('a batch answers every calculation in order', () => {
  expect(batch.map(({ id }) => id)).toEqual(calculations.map(({ id }) => id))
})

test('the lists of the command and of the service hold every calculation with its version', async () => {
  const listed = await command(['--list'])
  for (const { id, title } of calculations) expect(listed.out).toMatch(new RegExp(`^${id} +${escaped(title)}$`, 'm'))
  const told = (await server.app.inject({ url: '/api/calculations', headers: LOCAL })).json<{
    calculations: { id: string; version: number }[]
  }>()
  expect(told.calculations.map(({ id, version }) => ({ id, version }))).toEqual(
    calculations.map(({ id, version }) => ({ id, version })),
  )
})

describe.each(calculations.map((calculation) => ({ calculation, id: calculation.id })))(
  '$id',
  ({ calculation, id }) => {
    const { example, input, output, sources, cautions, formula } = calculation
    const wanted = sent(runCalculation({ id, input: example.input })) as Answer
    const fields = fieldsOf(input)
    const form = runOf(calculation, { given: givenBy(fields, groupDraft(fields, example.input)) })

    test('command, batch, service and form give one result', async () => {
      const alone = await command([id], JSON.stringify(example.input))
      expect(alone).toMatchObject({ code: 0, err: '' })
      expect(JSON.parse(alone.out)).toEqual(wanted)
      expect(batch.find((line) => line.id === id)).toEqual({ id, ...wanted })
      const served = await ask(id, example.input)
      expect(served.statusCode).toBe(200)
      expect(served.json()).toEqual(wanted)
      expect(form).toEqual({
        kind: 'worked',
        worked: { input: sent(input.parse(example.input)), result: wanted.result },
      })
    })

    test('what is missing is named alike by command and service, field by field', async () => {
      const served = await ask(id, {})
      expect(served.statusCode).toBe(422)
      const { issues } = served.json<{ issues: { path: string; expected: string; received: string }[] }>()
      expect(issues.length).toBeGreaterThan(0)
      for (const { path, expected, received } of issues) {
        expect(path).not.toBe('')
        expect([expected, received].every((text) => text.length > 0)).toBe(true)
      }
      const { code, err } = await command([id], '{}')
      expect(code).toBe(2)
      expect(err.trimEnd().split('\n')).toHaveLength(issues.length)
      for (const { path } of issues) expect(err).toContain(path)
    })

    test('explained, it tells every field, the formula, how each source is known, every caution and the example', async () => {
      const { out } = await command([id, '--explain'])
      for (const { path, description } of [...fieldRows(input), ...fieldRows(output)]) {
        expect(description).not.toBe('')
        expect(out).toContain(`${path}: `)
        expect(out).toContain(description)
      }
      for (const [symbol, meaning] of Object.entries(formula.symbols)) expect(out).toContain(`${symbol} = ${meaning}`)
      for (const { citation, known } of sources) expect(out).toContain(`${citation} [${known}]`)
      for (const caution of [...cautions, formula.text]) expect(out).toContain(caution)
      expect(out).toContain(JSON.stringify(example.input))
      const facts = JSON.parse((await command([id, '--explain', '--json'])).out) as Record<string, unknown>
      const { version, title, purpose, units } = calculation
      expect(facts).toMatchObject(
        sent({ id, version, title, purpose, units, formula, sources, cautions, example }) as object,
      )
    })

    test('worked in its form, it goes into the record as it is, with its working', () => {
      expect(form.kind).toBe('worked')
      const worked = (form as { worked: Worked }).worked
      const working = workingText(calculation, { worked, units: METRIC_UNITS })
      const entry = entryMaker('marram-house').make('calculation.recorded', {
        id,
        version: calculation.version,
        ...worked,
        working,
        about: 'findings',
      })
      expect(checkEntry(derive('marram-house', []), entry)).toMatchObject({ ok: true })
    })

    test('the reference page tells it with its example', () => {
      const from = page.indexOf(`## ${id}\n`)
      expect(from).toBeGreaterThan(0)
      const next = page.indexOf('\n## ', from + 1)
      const section = page.slice(from, next === -1 ? undefined : next)
      for (const { citation } of sources) expect(section).toContain(citation)
      expect(section).toContain(JSON.stringify(example.input, null, 2))
      expect(section).toContain(`Version ${calculation.version}.`)
    })
  },
)

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`)
