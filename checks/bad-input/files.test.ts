// Every reader of files, given files nobody should trust: refused with issues or read for what they are, soon, and never thrown.
import { acceptOwnCriteriaSet } from '@rillmark/casebook/criteria/criteria-sets.ts'
import { checkSystem } from '@rillmark/casebook/building/check-system.ts'
import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import { waterSystemSchema } from '@rillmark/casebook/building/water-system.ts'
import { drawSystem } from '@rillmark/casebook/drawing/draw-scene.ts'
import { sceneToSvg } from '@rillmark/casebook/drawing/svg.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { acceptOwnProcedure } from '@rillmark/casebook/procedures/procedures.ts'
import { readPastedCases } from '@rillmark/exchange/cases/pasted-cases.ts'
import { mergeCsv } from '@rillmark/exchange/building/csv-tables.ts'
import { csvOf, plainCell } from '@rillmark/exchange/package/csv.ts'
import { readPackage } from '@rillmark/exchange/package/read-package.ts'
import { readRows } from '@rillmark/exchange/results/read-rows.ts'
import { readTable } from '@rillmark/exchange/results/read-table.ts'
import { proposeMapping } from '@rillmark/exchange/results/remembered-mapping.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import fc from 'fast-check'
import { strToU8, zipSync } from 'fflate'
import Papa from 'papaparse'
import { expect, test } from 'vitest'
import { mutated } from './mutated.ts'

const utf16 = (text: string): Uint8Array =>
  Uint8Array.from([0xff, 0xfe, ...[...text].flatMap((each) => [each.charCodeAt(0) & 255, each.charCodeAt(0) >> 8])])

const sheet = (rows: string, extra = ''): Uint8Array =>
  zipSync({
    '[Content_Types].xml': strToU8(
      '<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>',
    ),
    '_rels/.rels': strToU8(
      '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>',
    ),
    'xl/workbook.xml': strToU8(
      '<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>',
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
    ),
    'xl/worksheets/sheet1.xml': strToU8(
      `<?xml version="1.0"?>${extra}<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">${rows}</worksheet>`,
    ),
  })

const BILLION_LAUGHS = `<!DOCTYPE x [<!ENTITY a "ha">${Array.from({ length: 12 }, (_, n) => `<!ENTITY ${String.fromCharCode(98 + n)} "${`&${String.fromCharCode(97 + n)};`.repeat(10)}">`).join('')}]>`

const TABLES: readonly (readonly [string, Uint8Array])[] = [
  ['nothing', new Uint8Array()],
  ['one byte', Uint8Array.of(7)],
  ['a byte order mark alone', Uint8Array.of(0xef, 0xbb, 0xbf)],
  ['line ends alone', strToU8('\r\n'.repeat(100_000))],
  ['a quotation mark alone', strToU8('"')],
  ['a million quotation marks', strToU8('"'.repeat(1_000_001))],
  ['quotation marks where none belong', strToU8('a"b,c\n"x"y,z\n')],
  ['a million columns', strToU8(`${','.repeat(1_000_000)}\n${','.repeat(1_000_000)}\n`)],
  ['a million rows', strToU8('a,b\n'.repeat(1_000_000))],
  ['one cell of ten megabytes', strToU8(`a,b\n${'x'.repeat(10_000_000)},1\n`)],
  ['twenty-one megabytes', new Uint8Array(21_000_000).fill(65)],
  ['UTF-16 cut in a letter', utf16('Label,Result\nA,1\n').subarray(0, 21)],
  ['UTF-16 of nothing', Uint8Array.of(0xff, 0xfe)],
  ['zero bytes', new Uint8Array(5000)],
  ['a spreadsheet encrypted with a password', Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, 0, 0)],
  ['a spreadsheet that is only its opening', strToU8('PK\x03\x04')],
  ['an archive of archives', zipSync({ 'a.zip': zipSync({ 'b.zip': zipSync({ c: new Uint8Array(10) }) }) })],
  ['a bomb', zipSync({ 'xl/worksheets/sheet1.xml': new Uint8Array(150_000_000) }, { level: 9 })],
  ['a cell in the last corner', sheet('<sheetData><row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>')],
  [
    'a cell beyond every corner',
    sheet('<sheetData><row r="99999999"><c r="ZZZZZZ99999999"><v>1</v></c></row></sheetData>'),
  ],
  [
    'cells without a place',
    sheet('<sheetData><row><c><v>1</v></c><c r=""><v>2</v></c></row><row r="-1"/></sheetData>'),
  ],
  ['shared text there is not', sheet('<sheetData><row r="1"><c r="A1" t="s"><v>99999</v></c></row></sheetData>')],
  [
    'merged cells over everything',
    sheet(
      '<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData><mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>',
    ),
  ],
  [
    'entities that multiply',
    sheet('<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>&l;</t></is></c></row></sheetData>', BILLION_LAUGHS),
  ],
  [
    'an entity from elsewhere',
    sheet(
      '<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>&e;</t></is></c></row></sheetData>',
      '<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/hostname">]>',
    ),
  ],
  ['a sheet cut short', sheet('<sheetData><row r="1"><c r="A1"><v>1')],
  ['a deep nest of elements', sheet('<a>'.repeat(200_000))],
  [
    'numbers beyond numbers',
    sheet(
      '<sheetData><row r="1"><c r="A1"><v>1e999</v></c><c r="B1"><v>NaN</v></c></row><row r="2"><c r="A2"><v>-1e999</v></c><c r="B2" t="d"><v>9999-99-99</v></c></row></sheetData>',
    ),
  ],
]

const PATIENCE_MS = 8000
const MOST_SHOWN = 1000

/** Runs the work in the time it may take; anything thrown fails the test. */
async function soon<T>(work: () => Promise<T> | T): Promise<T> {
  const began = performance.now()
  const value = await work()
  expect(performance.now() - began).toBeLessThan(PATIENCE_MS)
  return value
}

/** Issues as a person can read them. */
const readable = (issues: readonly Issue[]): boolean =>
  issues.every(({ path, expected, received }) =>
    [path, expected, received].every((part) => typeof part === 'string' && part.length < MOST_SHOWN),
  )

test.each(TABLES)('[FIL1] a laboratory’s file that is %s', async (_, bytes) => {
  const read = await soon(() => readTable({ name: 'results.csv', bytes }))
  expect(read.ok || (read.issues.length > 0 && readable(read.issues))).toBe(true)
  const state = derive('marram-house', [])
  for (const table of read.ok ? read.tables : []) {
    const { mapping } = proposeMapping(table, { results: state.results })
    expect(readRows(table, mapping).length).toBeLessThanOrEqual(table.rows.length)
  }
})

const system = buildSystem(marramHouse)
test.each(TABLES)('[FIL1] a table of a building that is %s leaves the building as it was', async (_, bytes) => {
  for (const table of ['components', 'pipes'] as const) {
    const merged = await soon(() => mergeCsv(system, { table, file: bytes }))
    expect(merged.issues.length > 0 && readable(merged.issues)).toBe(true)
    expect(merged.system).toEqual(system)
  }
})

test('[FIL1] ids and headings that name the inside of things are ids and headings like any other', () => {
  const file = 'id,kind,__proto__,constructor\n__proto__,junction,x,y\nconstructor,junction,x,y\n'
  const merged = mergeCsv(system, { table: 'components', file })
  expect(readable(merged.issues)).toBe(true)
  expect(Reflect.get({}, 'kind')).toBeUndefined()
})

test.each([
  ['nothing', ''],
  ['a quotation mark', '"'],
  [
    'an open quotation mark, that would swallow the rows below',
    'MH-01\t2026-03-01\n"MH-02\t2026-03-01\nMH-03\t2026-03-01\n',
  ],
  ['more rows than can be meant', 'MH-01\t2026-03-01\n'.repeat(6000)],
  ['ten megabytes', 'x'.repeat(10_000_000)],
  ['a million columns', `x${'\t'.repeat(1_000_000)}`],
  ['the inside of things', '__proto__\t__proto__\tconstructor\t__proto__\n'],
  ['zero bytes', '\0\t\0\n'],
  ['half of a letter', '\ud800\t2026-03-01'],
])('[FIL1] pasted cases that are %s give issues, and nothing is dropped without a word', async (_, text) => {
  const { cases, exposures, issues } = await soon(() => readPastedCases(text))
  expect(cases.length + exposures.length).toBe(0)
  expect(text === '' || issues.length > 0).toBe(true)
  expect(readable(issues)).toBe(true)
})

test.each(TABLES)('[FIL1] a package that is %s is refused', async (_, bytes) => {
  const read = await soon(() => readPackage(bytes))
  expect(!read.ok && read.issues.length > 0 && readable(read.issues)).toBe(true)
})

const JSONS: readonly unknown[] = [
  undefined,
  null,
  7,
  '',
  [],
  {},
  [[[]]],
  { format: 1 },
  { __proto__: null, constructor: 1 },
  { format: 'rillmark/water-system@1', components: [null, 7, {}], pipes: {} },
  { format: 'rillmark/water-system@1', components: Array.from({ length: 5000 }, () => ({ id: 'x' })), pipes: [] },
]
test('[FIL1] JSON that is no water system, procedure or criteria set is refused with issues', () => {
  for (const given of JSONS) {
    expect(checkSystem(given).some(({ severity }) => severity === 'error')).toBe(true)
    for (const read of [acceptOwnProcedure(given), acceptOwnCriteriaSet(given)])
      expect(!read.ok && read.issues.length > 0 && readable(read.issues)).toBe(true)
  }
})

test('[FIL1] a water system damaged anywhere is named as wrong or can be drawn; nothing is thrown', () => {
  fc.assert(
    fc.property(mutated(system), (given) => {
      const problems = checkSystem(given)
      expect(readable(problems)).toBe(true)
      const parsed = waterSystemSchema.safeParse(given)
      const drawn = parsed.success ? sceneToSvg(drawSystem(parsed.data)) : ''
      expect(drawn).not.toMatch(/NaN|Infinity|undefined/)
    }),
    { numRuns: 200 },
  )
})

const nasty = fc.oneof(
  fc.string({ unit: 'grapheme' }),
  fc.string({
    unit: fc.constantFrom('=', '+', '-', '@', "'", '"', ',', ';', '\t', '\r', '\n', '＝', '＠', ' ', 'a', '|'),
  }),
)
test('[PKG3] no text runs as a formula in any table we write, and each comes back as it was', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(nasty, nasty), { minLength: 1 }), (rows) => {
      const { data } = Papa.parse<string[]>(csvOf(['a', 'b'], rows), { delimiter: ',', newline: '\r\n' })
      const cells = data.slice(1, -1)
      expect(cells.flat().filter((cell) => /^[=+\-@\t\r\n＝＋－＠]/.test(cell))).toEqual([])
      expect(cells.map((row) => row.map(plainCell))).toEqual(rows.map((row) => [...row]))
    }),
    { numRuns: 500 },
  )
})
