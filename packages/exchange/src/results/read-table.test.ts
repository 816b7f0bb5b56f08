import { zipSync } from 'fflate'
import { writeXlsx } from 'hucre/xlsx'
import { describe, expect, test } from 'vitest'
import { readTable } from './read-table.ts'
import { unpackedSize } from './unpacked-size.ts'

const text = (content: string) => new TextEncoder().encode(content)

async function onlyTable(bytes: Uint8Array) {
  const read = await readTable({ name: 'file', bytes })
  if (!read.ok) throw new TypeError(JSON.stringify(read.issues))
  return read.tables[0]
}

describe('[RES1] the table of a file is read in any usual encoding and by any usual delimiter, cells as written', () => {
  const rows = 'Label;Ergebnis\nA-1;<1,5\nA-2;Küche\n'
  const utf16 = (mark: boolean, little: boolean) => {
    const body = [...(mark ? '\uFEFF' : ''), ...rows].flatMap((character) => {
      const code = character.charCodeAt(0)
      return little ? [code & 255, code >> 8] : [code >> 8, code & 255]
    })
    return new Uint8Array(body)
  }
  const windows = new Uint8Array([...rows].map((character) => character.charCodeAt(0)))
  test.each([
    ['UTF-8', text(rows)],
    ['UTF-8 with mark', text(`\uFEFF${rows}`)],
    ['UTF-16LE with mark', utf16(true, true)],
    ['UTF-16LE without mark', utf16(false, true)],
    ['UTF-16BE with mark', utf16(true, false)],
    ['UTF-16BE without mark', utf16(false, false)],
    ['Windows-1252', windows],
    ['comma', text('Label,Ergebnis\nA-1,"<1,5"\nA-2,Küche\n')],
    ['tab, CRLF', text('Label\tErgebnis\r\nA-1\t<1,5\r\nA-2\tKüche\r\n')],
  ])('%s', async (_, bytes) => {
    const table = await onlyTable(bytes)
    expect(table?.headers).toEqual(['Label', 'Ergebnis'])
    expect(table?.rows.map(({ cells }) => cells.map((cell) => (cell.kind === 'text' ? cell.text : '')))).toEqual([
      ['A-1', '<1,5'],
      ['A-2', 'Küche'],
    ])
  })
})

test('[RES2] lines above the heading and rows without content are left aside and rows keep the number a spreadsheet gives them', async () => {
  const table = await onlyTable(text('Laboratory of Quillhaven\n\nSample,Result,Unit\nA-1,12,CFU/L\n,,\nA-2,,CFU/L\n'))
  expect(table?.headers).toEqual(['Sample', 'Result', 'Unit'])
  expect(table?.rows.map(({ number }) => number)).toEqual([4, 6])
  expect(table?.notes.at(-1)).toBe('2 lines above the heading left aside')
})

test('[RES3] a spreadsheet keeps what it made of a value: numbers, text and dates stay apart', async () => {
  const rows = [
    ['Sample', 'CFU/L'],
    ['A-1', 12],
    ['A-2', new Date('2022-02-03T00:00:00Z')],
    ['A-3', '<10'],
    ['A-4', null],
  ]
  const table = await onlyTable(await writeXlsx({ sheets: [{ name: 'Report', rows }] }))
  expect(table?.rows.map(({ cells }) => cells[1] ?? { kind: 'empty' })).toEqual([
    { kind: 'number', value: 12 },
    { kind: 'date', date: '2022-02-03', serial: 44595 },
    { kind: 'text', text: '<10' },
    { kind: 'empty' },
  ])
})

describe('[RES4] a file that cannot be used is refused with the reason, and nothing is thrown', () => {
  const zeros = new Uint8Array(120_000_000)
  test.each([
    ['empty', new Uint8Array(), 'an empty file'],
    ['a PDF', text('%PDF-1.7 …'), 'a PDF'],
    ['an old spreadsheet', new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1]), 'an old'],
    ['binary', new Uint8Array([1, 2, 0, 3, 7, 0, 9, 0, 0, 0, 1, 1]), 'a binary file'],
    ['only a heading', text('Label,Result\n'), 'only a heading'],
    ['an open quotation mark', text('Label,Result\n"A-1,12\n'), 'an open one'],
    ['too many columns', text(`${'a,'.repeat(300)}b\n${'1,'.repeat(300)}2\n`), 'more'],
    ['an archive that is no spreadsheet', zipSync({ 'readme.txt': text('hello') }), 'an archive'],
    ['a damaged archive', new Uint8Array([0x50, 0x4b, 3, 4, 9, 9, 9, 9, 9]), 'a damaged archive'],
    ['one that unpacks to too much', zipSync({ 'xl/worksheets/sheet1.xml': zeros }), 'a file that unpacks to more'],
  ])('%s', async (_, bytes, received) => {
    const read = await readTable({ name: 'file.xlsx', bytes })
    expect(read.ok ? 'a table' : read.issues[0]?.received).toContain(received)
  })

  test('the size an archive states about itself is not believed', () => {
    const honest = zipSync({ a: new Uint8Array(3_000_000) })
    const lying = honest.slice()
    const view = new DataView(lying.buffer)
    view.setUint32(22, 10, true)
    const central = lying.findLastIndex(
      (byte, index) => byte === 0x50 && lying[index + 1] === 0x4b && lying[index + 2] === 1 && lying[index + 3] === 2,
    )
    view.setUint32(central + 24, 10, true)
    expect(unpackedSize(lying, 1_000_000)).toEqual({ kind: 'too large' })
    expect(unpackedSize(honest, 4_000_000)).toEqual({ kind: 'fits', bytes: 3_000_000 })
  })
})
