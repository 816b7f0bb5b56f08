import { type DisplayUnits, METRIC_UNITS, US_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { createHash } from 'node:crypto'
import { afterEach, expect, test, vi } from 'vitest'
import { prepareReport } from './issue-report.ts'

const HASH = 'a'.repeat(64)
const OTHER = 'b'.repeat(64)
const PDF = new TextEncoder().encode('%PDF-1.7 invented')

/** A server that answers with these heads, one after another, and with a PDF. */
function serve(heads: readonly ({ sequence: number; hash: string } | undefined)[], pdfStatus = 200): void {
  let asked = 0
  vi.stubGlobal('fetch', async (path: string) => {
    if (path.includes('/documents/')) return new Response(PDF, { status: pdfStatus })
    const head = heads[asked]
    asked += 1
    if (head === undefined) throw new TypeError('Failed to fetch')
    return Response.json({ links: [], head })
  })
}

const prepare = (units: DisplayUnits = METRIC_UNITS) =>
  prepareReport({ investigation: 'marram-house', variant: 'full', units, entries: 9 })

afterEach(() => vi.unstubAllGlobals())

test('bytes made between two equal heads are prepared with their hash', async () => {
  serve([
    { sequence: 9, hash: HASH },
    { sequence: 9, hash: HASH },
  ])
  const sha256 = createHash('sha256').update(PDF).digest('hex')
  expect(await prepare()).toMatchObject({
    ok: true,
    body: { variant: 'full', headSequence: 9, headHash: HASH, sha256 },
  })
})

test('a report in other units than the record’s is asked for in them, and the record keeps which', async () => {
  serve([
    { sequence: 9, hash: HASH },
    { sequence: 9, hash: HASH },
  ])
  const asked = vi.spyOn(globalThis, 'fetch')
  expect(await prepare(US_UNITS)).toMatchObject({ ok: true, body: { units: US_UNITS } })
  const paths = asked.mock.calls.map(([path]) => decodeURIComponent(String(path)))
  expect(paths.find((path) => path.includes('/documents/'))).toContain('temperature=°F')
})

test.each([
  [
    'a record that grew meanwhile',
    [
      { sequence: 9, hash: HASH },
      { sequence: 10, hash: OTHER },
    ],
    200,
    'The record grew',
  ],
  ['a server that has more than this device', [{ sequence: 10, hash: OTHER }], 200, 'differ'],
  ['a server that has less than this device', [{ sequence: 8, hash: OTHER }], 200, 'differ'],
  ['no server', [undefined], 200, 'can’t be reached'],
  ['a server gone before the end', [{ sequence: 9, hash: HASH }, undefined], 200, 'can’t be reached'],
  ['a server that can’t make it', [{ sequence: 9, hash: HASH }], 500, 'could not make'],
])('%s is told and nothing is issued', async (_, heads, status, words) => {
  serve(heads, status)
  const prepared = await prepare()
  expect(prepared).toMatchObject({ ok: false, message: expect.stringContaining(words) })
})
