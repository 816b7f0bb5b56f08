import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { csvTable, mergeCsv } from './csv-tables.ts'

const marram = buildSystem(marramHouse)
const empty: WaterSystem = { ...marram, components: [], pipes: [] }
const components = (file: string | Uint8Array, system = empty) => mergeCsv(system, { table: 'components', file })
const pipes = (file: string, system = empty) => mergeCsv(system, { table: 'pipes', file })

test('[BLD13] a system written as two tables and read again is the same system', () => {
  const schedule = { pattern: 'schedule' as const, draws: [{ at: '07:30', minutes: 10, flowLPerMin: 9, mixToC: 38.5 }] }
  const odd = { id: 'odd', kind: 'bath' as const, floor: -1, label: '=1+1; "quoted", \nlines', use: schedule }
  const full = { ...marram, components: [...marram.components, odd] }
  const read = components(csvTable(full, 'components'))
  expect(read.issues).toEqual([])
  expect(pipes(csvTable(full, 'pipes'), read.system).system).toEqual(full)
})

test.each([
  ['comma', 'id,kind,floor,riser\nt1,basin-tap,2,A\n'],
  ['semicolon', 'ID;Type;Level;Stack\r\nt1;basin-tap;2;A\r\n'],
  ['tab and byte order mark', '\uFEFFId\tKind\tFloor\tRiser\tnotes\nt1\tbasin-tap\t2\tA\t\t\n'],
])('[BLD13] reads a table separated by %s', (_, file) => {
  const { issues, system, added } = components(file)
  expect([issues, added]).toEqual([[], ['t1']])
  expect(system.components).toEqual([{ id: 't1', kind: 'basin-tap', floor: 2, riser: 'A' }])
})

test('[BLD13] reads Western text without a mark and UTF-16', () => {
  const latin = Uint8Array.from('id;kind;zone\nt1;bath;S\u00fcd', (letter) => letter.charCodeAt(0))
  expect(components(latin).system.components[0]?.zone).toBe('S\u00fcd')
  const wide = new Uint8Array(
    new Uint16Array(Array.from('\uFEFFid\tkind\nt1\tbath', (one) => one.charCodeAt(0))).buffer,
  )
  expect(components(wide).system.components[0]?.kind).toBe('bath')
})

const PIPE = 'id;from;to;circuit;lengthM;boreMm\n'

// name | rows | lengths read | issue
test.each([
  ['decimal comma', 'p1;a;b;cold;12,5;20\np2;a;b;hot;3;13,6\n', [12.5, 3], []],
  ['decimal point', 'p1;a;b;cold;12.5;20\n', [12.5], []],
  ['a comma that may group', 'p1;a;b;cold;1,234;20\n', [], ['line 2.lengthM']],
  ['both signs', 'p1;a;b;cold;12,5;20\np2;a;b;hot;3.5;13\n', [3.5], ['line 2.lengthM']],
  ['no number', 'p1;a;b;cold;long;20\n', [], ['line 2.lengthM']],
  ['a negative length', 'p1;a;b;cold;-2;20\n', [], ['line 2.lengthM']],
  ['an id twice', 'p1;a;b;cold;2;20\np1;a;b;cold;3;20\n', [2], ['line 3.id']],
])('[BLD14] %s', (_, rows, lengths, paths) => {
  const read = pipes(PIPE + rows)
  expect(read.system.pipes.map((pipe) => pipe.lengthM)).toEqual(lengths)
  expect(read.issues.map((one) => one.path)).toEqual(paths)
})

test('[BLD13] a known id changes what its row states and keeps the rest', () => {
  const read = components('id,room,provenance\nshower-c605,605b,seen; riser=drawn\n', marram)
  const before = marram.components.find((one) => one.id === 'shower-c605')
  expect(read.changed).toEqual(['shower-c605'])
  expect(read.system.components.find((one) => one.id === 'shower-c605')).toEqual({
    ...before,
    room: '605b',
    provenance: { default: 'seen', riser: 'drawn' },
  })
})

test('[BLD13] a new pattern of use takes the figures of the old one with it', () => {
  const read = components('id,pattern\nshower-c605,unused\n', marram)
  expect(read.issues).toEqual([])
  expect(read.system.components.find((one) => one.id === 'shower-c605')?.use).toEqual({ pattern: 'unused' })
})

test('[BLD14] unknown headings, kinds and words are named, nothing is dropped in silence', () => {
  const read = components('id,kind,colour,provenance\nt1,tap,red,heard\n')
  expect(read.issues.map((one) => one.path)).toEqual(['heading 3', 'line 2.kind', 'line 2.provenance.default'])
  expect(components('').issues[0]?.received).toContain('empty file')
  expect(components('kind\nbath\n').issues[0]?.expected).toBe('a column id')
  expect(components('id,kind\n"t1,bath\n').issues[0]?.expected).toBe('every quotation mark closed')
  expect(components(new Uint8Array([1, 0, 2, 3, 0, 0, 0, 200])).issues).toHaveLength(1)
})

test('[BLD14] no text can make the reader throw', () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 80 }), (text) => void expect(components(text).issues).toBeInstanceOf(Array)),
  )
  const cells = fc.array(fc.array(fc.string({ maxLength: 6 }), { minLength: 4, maxLength: 5 }), { maxLength: 5 })
  fc.assert(
    fc.property(cells, (rows) => {
      const file = [
        'id,kind,floor,riser',
        ...rows.map((row) => row.map((cell) => JSON.stringify(cell)).join(',')),
      ].join('\n')
      expect(components(file).issues).toBeInstanceOf(Array)
    }),
  )
})

test('[BLD15] text a spreadsheet would run as a formula is written harmless', () => {
  const system: WaterSystem = {
    ...empty,
    components: [{ id: '=cmd|calc', kind: 'bath', label: '@SUM(A1)', floor: -2 }],
  }
  const [, row] = csvTable(system, 'components').split('\r\n')
  expect(row).toContain("'=cmd|calc,bath,-2")
  expect(row).toContain("'@SUM(A1)")
})
