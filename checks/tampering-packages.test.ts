// Ways to tamper with packages and receipts, one file each in checks/tampering/<subject>/: each must be caught in its layer, by name.
import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import type { Finding, Verdict } from '@rillmark/exchange/verify/verdict.ts'
import { verifyFiles } from '@rillmark/exchange/verify/verify-files.ts'
import { verifyPackage } from '@rillmark/exchange/verify/verify-package.ts'
import { webCryptoCheck } from '@rillmark/exchange/verify/web-crypto-check.ts'
import { strToU8 } from 'fflate'
import { expect, test } from 'vitest'
import { head, sound } from './tampering/package-way.ts'
import { type Attempt, later, receipt } from './tampering/receipt-way.ts'
import { filesOf, howMany, packageWays, receiptWays } from './tampering/ways.ts'

const checkSignature = webCryptoCheck()
const packages = await packageWays()
const receipts = await receiptWays()

const verify = (bytes: Uint8Array, known?: typeof head): Promise<Verdict> =>
  verifyPackage(bytes, { checkSignature, head: known })

const said = ({ layer, path, expected, received }: Finding): string => `${layer} ${path}: ${expected} / ${received}`

test('[PRF6] before any tampering, package and receipts are sound, with the known head too', async () => {
  expect((await verify(sound, head)).findings).toEqual([])
  const verdicts = await verifyFiles(filesOf({ receipt: later, beside: receipt, package: sound }), { checkSignature })
  expect(verdicts.map(({ verdict }) => verdict.findings.map(said))).toEqual([
    [expect.stringContaining('cut short')],
    [],
    [],
  ])
  const together = await verifyFiles(filesOf({ receipt, package: sound }), { checkSignature })
  expect(together.map(({ verdict }) => verdict.findings)).toEqual([[], []])
})

test.each(packages.filter(({ needs }) => needs === undefined))(
  '[PRF6] $file: $title',
  async ({ tamper, layer, names }) => {
    const verdict = await verify(tamper())
    const found = verdict.findings.filter((finding) => finding.layer === layer).map(said)
    expect(found.join('\n'), verdict.findings.map(said).join('\n')).toContain(names)
  },
)

test.each(packages.filter(({ needs }) => needs === 'head'))(
  '[PRF7] $file: $title: sound in itself, betrayed by a known head',
  async ({ tamper, names }) => {
    const bytes = tamper()
    expect((await verify(bytes)).findings.map(said)).toEqual([])
    const found = (await verify(bytes, head)).findings.filter((finding) => finding.layer === 'head').map(said)
    expect(found.join('\n')).toContain(names)
  },
)

test.each(packages.filter(({ needs }) => needs === 'caution'))(
  '[PRF7] $file: $title: can’t be told from this package alone, and that is said',
  async ({ tamper, names }) => {
    const verdict = await verify(tamper())
    expect(verdict.findings.map(said)).toEqual([])
    expect(verdict.cautions.join('\n')).toContain(names)
    expect((await verify(sound)).cautions.join('\n')).not.toContain(names)
  },
)

test.each(receipts)('[PRF8] $file: $title', async ({ tamper, names }) => {
  const verdicts = await verifyFiles(filesOf(tamper()), { checkSignature })
  const found = verdicts.flatMap(({ verdict }) => verdict.findings).filter((finding) => finding.layer === 'receipt')
  expect(found.map(said).join('\n')).toContain(names)
})

test('[PRF9] there are at least 300 ways of tampering, those with a bare record included', () => {
  expect(howMany()).toBeGreaterThanOrEqual(300)
  expect(packages.length + receipts.length).toBeGreaterThanOrEqual(220)
})

test('[PRF9] no two ways give the same bytes, and no two have the same title', () => {
  const made = [
    ...packages.map(({ file, tamper }) => [file, sha256OfBytes(tamper())] as const),
    ...receipts.map(({ file, tamper }) => [file, hashOf(tamper())] as const),
  ]
  const alike = [...Map.groupBy(made, ([, hash]) => hash).values()].filter((same) => same.length > 1)
  expect(alike.map((same) => same.map(([file]) => file))).toEqual([])
  expect(made.map(([, hash]) => hash)).not.toContain(sha256OfBytes(sound))
  const titles = [...packages, ...receipts].map(({ title }) => title)
  expect(titles.filter((title, index) => titles.indexOf(title) !== index)).toEqual([])
})

function hashOf(attempt: Attempt): string {
  const parts = filesOf(attempt).map(({ name, bytes }) => [name, sha256OfBytes(bytes)])
  return sha256OfBytes(strToU8(canonicalJson(parts)))
}
