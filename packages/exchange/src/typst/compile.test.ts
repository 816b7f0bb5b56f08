import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { compileTypst } from './compile.ts'

const textOf = (pdf: Uint8Array): string =>
  execFileSync('pdftotext', ['-layout', '-', '-'], { input: pdf, encoding: 'utf8' })
const fontsOf = (pdf: Uint8Array): string => {
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-fonts-'))
  try {
    const file = join(folder, 'x.pdf')
    writeFileSync(file, pdf)
    return execFileSync('pdffonts', [file], { encoding: 'utf8' })
  } finally {
    rmSync(folder, { recursive: true })
  }
}

const asOf = '2026-03-02T08:15:00.000Z'
const specimen = (data: Record<string, string>): Uint8Array => compileTypst({ template: 'specimen.typ', data, asOf })

test('data is shown as it is and never read as markup', () => {
  const hostile = '#panic("x") *bold* $x$ <label> @ref [y] \\ #read("/etc/passwd") // gone'
  expect(textOf(specimen({ text: hostile }))).toContain(
    '#panic("x") *bold* $x$ <label> @ref [y] \\ #read("/etc/passwd") // gone',
  )
})

test('the same document gives the same bytes, and other data other bytes', () => {
  const first = specimen({ text: 'one' })
  expect(specimen({ text: 'two' })).not.toEqual(first)
  expect(specimen({ text: 'one' })).toEqual(first)
})

test('a PDF claims PDF/A-2a and embeds only the bundled fonts', () => {
  const pdf = specimen({ title: 'Fonts', text: 'plain', code: 'AB-12' })
  const head = Buffer.from(pdf).toString('latin1')
  expect(head).toContain('<pdfaid:part>2</pdfaid:part>')
  expect(head).toContain('<pdfaid:conformance>A</pdfaid:conformance>')
  const rows = fontsOf(pdf).trim().split('\n').slice(2)
  expect(rows.length).toBeGreaterThan(1)
  for (const row of rows) expect(row).toMatch(/IBMPlex(Sans|Mono).* yes /)
})

test('a template outside its folder is refused', () => {
  expect(() => compileTypst({ template: '../fonts/x.typ', data: {}, asOf })).toThrow(RangeError)
})

test('a template that cannot be set says why', () => {
  expect(() => compileTypst({ template: 'missing.typ', data: {}, asOf })).toThrow(/missing\.typ/)
})

test('a moment that is no instant is refused', () => {
  expect(() => compileTypst({ template: 'specimen.typ', data: {}, asOf: 'yesterday' })).toThrow(RangeError)
})
