import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { LABEL, signedRecord } from '@rillmark/casebook/receipt/receipt.fixture.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { hashGroups } from '@rillmark/casebook/record/verdict-words.ts'
import { openServerKey } from '@rillmark/server/devices/server-key.ts'
import { openData } from '@rillmark/server/data/open-data.ts'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { runIn } from './command-run.fixture.ts'
import { exportCommand } from './export.ts'
import { receiptCommand } from './receipt.ts'
import { verifyCommand } from './verify.ts'

const folder = mkdtempSync(join(tmpdir(), 'rillmark-receipt-'))
const receipt = (...args: string[]) => runIn(folder, { command: receiptCommand, args })
const verify = (...args: string[]) => runIn(folder, { command: verifyCommand, args })
const read = (name: string) => JSON.parse(readFileSync(join(folder, name), 'utf8')) as Receipt

async function takeIn(links: ReturnType<typeof signedRecord>) {
  const data = openData(join(folder, 'data'))
  expect(await data.records.importRecord('marram-house', links)).toMatchObject({ ok: true })
  await data.ledger.close()
}

beforeAll(async () => {
  await takeIn(signedRecord())
  await receipt('marram-house', '--sample', LABEL, '-o', 'first.json')
  await runIn(folder, { command: exportCommand, args: ['marram-house', '-o', 'x.zip'] })
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('[PRF11] [ACC23] a receipt tells what it holds, is signed with the key of the folder, and verifies alone, with its package, with its record', async () => {
  const { code, out, err } = await receipt('marram-house', '--sample', LABEL, '-o', 'again.json')
  const { rootHash, treeSize, proofs, signature } = read('again.json')
  const key = hashGroups(signature?.key ?? '')
  expect({ code, err }).toEqual({ code: 0, err: '' })
  const wrote = `again.json: ${proofs.length} entries of ${LABEL}, in a record of ${treeSize}`
  expect(out).toBe(`${wrote}\nRoot ${rootHash}\nKey  ${key}\n`)
  expect(signature?.key).toBe(openServerKey(join(folder, 'data')).thumbprint)
  expect(await verify('again.json')).toMatchObject({ code: 0, out: expect.stringContaining(`Root`) })
  const together = await verify('x.zip', 'again.json')
  expect(together).toMatchObject({
    code: 0,
    err: '',
    out: expect.stringMatching(/x\.zip: Sound package[^]*again\.json: Sound receipt/),
  })
  expect(together.out).toContain(key)
  expect(await verify('marram-house', 'again.json')).toMatchObject({ code: 0, out: expect.stringContaining('Sound') })
})

test('[PRF5] a later receipt goes on from an earlier one, where the record does', async () => {
  await takeIn(signedRecord('marram-house', 3))
  expect(await receipt('marram-house', '--sample', LABEL, '--since', 'first.json', '-o', 'later.json')).toMatchObject({
    code: 0,
  })
  expect(read('later.json').since?.treeSize).toBe(read('first.json').treeSize)
  expect(await verify('first.json', 'later.json')).toMatchObject({ code: 0, err: '' })
  // the package was made before: it can't hold what the later receipt saw
  expect(await verify('x.zip', 'later.json')).toMatchObject({
    code: 2,
    err: expect.stringContaining('it was cut short, or is an older copy'),
  })
})

test('a receipt as a page holds the figures the verifier shows', async () => {
  expect(await receipt('marram-house', '--sample', LABEL, '-o', 'page.pdf')).toMatchObject({ code: 0 })
  const page = execFileSync('pdftotext', ['-layout', join(folder, 'page.pdf'), '-'], { encoding: 'utf8' })
  await receipt('marram-house', '--sample', LABEL, '-o', 'beside.json')
  const { rootHash, signature } = read('beside.json')
  for (const shown of [
    `Receipt of ${LABEL}`,
    hashGroups(rootHash),
    hashGroups(signature?.key ?? ''),
    'amends no. 3: half a bottle',
  ])
    expect(page).toContain(shown)
})

test('[CLI1] what can’t be used is told in one line for each problem, and nothing is written', async () => {
  const damaged = { ...read('first.json'), rootHash: '0'.repeat(64) }
  writeFileSync(join(folder, 'damaged.json'), JSON.stringify(damaged))
  writeFileSync(join(folder, 'no.json'), 'no receipt')
  const given = ['marram-house', '--sample', LABEL, '-o', 'n.json']
  const cases: [string[], RegExp][] = [
    [[], /^arguments: expected ID --sample LABEL -o FILE\.json or FILE\.pdf.*received nothing\n$/],
    [['marram-house', '-o', 'n.json'], /^arguments: /],
    [['marram-house', '--sample', LABEL, '-o', 'n.txt'], /^arguments: /],
    [[...given, 'more'], /^arguments: /],
    [
      ['marram-house', '--sample', 'MH-R9-99', '-o', 'n.json'],
      /^sample: expected the label of a sample this record names, received "MH-R9-99"\n$/,
    ],
    [['nobody', '--sample', LABEL, '-o', 'n.json'], /^ID: expected .*marram-house.*, received nobody\n$/],
    [[...given, '--data', 'nowhere'], /^--data: expected a data folder of rillmark start, received nowhere\n$/],
    [[...given, '--since', 'nothing.json'], /expected a file that can be read, received .*nothing\.json/],
    [[...given, '--since', 'no.json'], /expected JSON, received /],
    [[...given, '--since', 'x.zip'], /expected text in UTF-8, received another encoding/],
    [[...given, '--since', 'damaged.json'], /^(damaged\.json .+: expected .+, received .+\n)+$/],
    [['marram-house', '--sample', LABEL, '-o', 'no/such/folder/n.json'], /expected .+, received .+/],
  ]
  for (const [args, said] of cases) {
    const { code, out, err } = await receipt(...args)
    expect({ code, out }, args.join(' ')).toEqual({ code: 2, out: '' })
    expect(err, args.join(' ')).toMatch(said)
  }
  expect(() => read('n.json')).toThrow('ENOENT')
})
