import { execFileSync } from 'node:child_process'
import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { openData } from '@rillmark/server/data/open-data.ts'
import { reportCommand } from './report.ts'

let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'rillmark-report-'))
  const data = openData(folder)
  const { make } = entryMaker('marram-house')
  await data.records.append('marram-house', [
    make('investigation.opened', {
      title: 'Marram House',
      setting: 'hotel',
      openedOn: '2026-03-02',
      reason: 'two cases',
    }),
    make('case.recorded', {
      code: 'MH-01',
      onsetDate: '2026-02-11',
      classification: 'confirmed',
      link: 'possible',
      isolate: 'kept',
    }),
  ])
  await data.ledger.close()
})
afterAll(() => rm(folder, { recursive: true }))

async function run(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  let [out, err] = ['', '']
  const io = {
    stdin: async () => '',
    out: (text: string) => void (out += text),
    err: (text: string) => void (err += text),
    cwd: folder,
  }
  return { code: await reportCommand.run(args, io), out, err }
}

const textOf = (file: string): string => execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })

test('the report of an investigation is written, and its hash and head are told', async () => {
  const { code, out } = await run('marram-house', '-o', 'x.pdf', '--data', '.')
  expect(code).toBe(0)
  const file = join(folder, 'x.pdf')
  expect(out).toContain(sha256OfBytes(await readFile(file)))
  expect(textOf(file)).toContain('MH-01')
  const head = /Head 2:([0-9a-f]{64})/.exec(out)?.[1] ?? 'none'
  expect(textOf(file).replaceAll(/\s/g, '')).toContain(head)
})

test('the redacted variant leaves the case out', async () => {
  expect((await run('marram-house', '-o', 'r.pdf', '--redacted', '--data', '.')).code).toBe(0)
  expect(textOf(join(folder, 'r.pdf'))).not.toContain('MH-01')
})

test.each([
  [['nobody', '-o', 'y.pdf', '--data', '.'], 'ID: expected one of marram-house, received nobody'],
  [['marram-house', '--data', '.'], 'arguments: expected ID -o OUT.pdf'],
  [['marram-house', '-o', 'y.pdf', '--data', 'elsewhere'], '--data: expected'],
  [['marram-house', '-o', 'no/such/y.pdf', '--data', '.'], '-o: expected'],
  [['marram-house', 'second', '-o', 'y.pdf'], 'arguments: expected'],
])('%j is refused with the reason', async (args, reason) => {
  const { code, err } = await run(...args)
  expect(code).toBe(2)
  expect(err).toContain(reason)
})

test('[RPT14] the units of the reader are an option; another system is refused', async () => {
  expect((await run('marram-house', '-o', 'us.pdf', '--units', 'us', '--data', '.')).code).toBe(0)
  expect(textOf(join(folder, 'us.pdf')).replaceAll(/\s+/g, ' ')).toContain('told in °F, US gal, in, ft and lb')
  const { code, err } = await run('marram-house', '-o', 'no.pdf', '--units', 'imperial', '--data', '.')
  expect([code, err]).toEqual([2, expect.stringContaining('--units metric or us')])
})
