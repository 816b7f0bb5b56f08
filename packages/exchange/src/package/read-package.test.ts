import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { forged, PICTURE, recordWithPicture, soundPackage } from './package.fixture.ts'
import { readPackage } from './read-package.ts'
import { writePackage } from './write-package.ts'
import { ZIP_LIMITS } from './zip-directory.ts'

const refusal = (bytes: Uint8Array): string => {
  const read = readPackage(bytes)
  return read.ok
    ? 'taken'
    : read.issues.map(({ path, expected, received }) => `${path}: ${expected} / ${received}`).join('\n')
}

test('[PKG1] a package read back is the record it was written from, with its pictures', () => {
  const { links, attachments } = recordWithPicture()
  const read = readPackage(writePackage(links, { attachments }))
  expect(read).toMatchObject({
    ok: true,
    value: { links, manifest: { investigation: 'marram-house', counts: { entries: 4, attachments: 1 } } },
  })
  expect(read.ok && [...read.value.attachments.values()]).toEqual([PICTURE])
})

test('[PKG2] the same record gives the same bytes', () => {
  expect(soundPackage()).toEqual(soundPackage())
})

test('[PKG3] text that a spreadsheet would run as a formula is made harmless in the tables, and kept as written in the record', () => {
  const files = unzipSync(soundPackage())
  expect(strFromU8(files['tables/exposures.csv'] ?? new Uint8Array())).toContain("C1,'=cmd()|x,")
  expect(strFromU8(files['entries.jsonl'] ?? new Uint8Array())).toContain('"place":"=cmd()|x"')
})

test('[PKG4] a picture that is not at hand is named as missing and the package is whole without it', () => {
  const { links, attachments } = recordWithPicture()
  const read = readPackage(writePackage(links, { attachments: new Map() }))
  expect(read).toMatchObject({
    ok: true,
    value: { manifest: { missing: [...attachments.keys()], counts: { attachments: 0 } } },
  })
})

const text = (files: Record<string, Uint8Array>, path: string) => strFromU8(files[path] ?? new Uint8Array())

test.each([
  ['a path upwards', forged((files) => (files['../evil'] = strToU8('x'))), 'leads outside'],
  ['a path upwards in the middle', forged((files) => (files['tables/../../evil.csv'] = strToU8('x'))), 'leads outside'],
  ['an absolute path', forged((files) => (files['/etc/evil'] = strToU8('x'))), 'leads outside'],
  ['a drive letter', forged((files) => (files['C:evil'] = strToU8('x'))), 'leads outside'],
  ['backslashes', forged((files) => (files['tables\\..\\evil'] = strToU8('x'))), 'leads outside'],
  ['an unknown file', forged((files) => (files['run.sh'] = strToU8('x'))), 'an unknown file'],
  ['a file the manifest does not list', forged((files) => (files['tables/more.csv'] = strToU8('x'))), 'does not list'],
  ['a missing record', forged((files) => delete files['entries.jsonl']), 'entries.jsonl'],
  ['a missing manifest', forged((files) => delete files['manifest.json']), 'manifest.json'],
  ['a manifest that is no JSON', forged((files) => (files['manifest.json'] = strToU8('{'))), 'manifest.json'],
  ['a table with other bytes', forged((files) => (files['tables/cases.csv'] = strToU8('x'))), 'other bytes'],
  [
    'an altered entry',
    forged(
      (files) => (files['entries.jsonl'] = strToU8(text(files, 'entries.jsonl').replace('two cases', 'one case'))),
      { agree: true },
    ),
    'line 1: an unbroken chain',
  ],
  [
    'a record cut short',
    forged(
      (files) =>
        (files['entries.jsonl'] = strToU8(
          text(files, 'entries.jsonl').split('\n').slice(0, 2).join('\n').concat('\n'),
        )),
      { agree: true },
    ),
    'ends after 2 of 4',
  ],
  [
    'a record in another encoding',
    forged((files) => (files['entries.jsonl'] = Uint8Array.of(0xff, 0xfe, 0x7b, 0x00)), { agree: true }),
    'UTF-8',
  ],
  [
    'a picture that is none',
    forged((files) => swapPicture(files, strToU8('<svg onload=alert(1)>')), { agree: true }),
    'other bytes',
  ],
  [
    'a picture nobody names',
    forged((files) => (files[`attachments/${'a'.repeat(64)}.png`] = PICTURE), { agree: true }),
    'other bytes',
  ],
  ['nothing', new Uint8Array(), 'no end of archive'],
  ['text', strToU8('hello'), 'no end of archive'],
  ['an empty archive', zipSync({}), 'manifest.json'],
  ['half an archive', soundPackage().slice(0, 900), 'no end of archive'],
])('[PKG5] %s is refused with the reason', (_, bytes, reason) => {
  expect(refusal(bytes)).toContain(reason)
})

function swapPicture(files: Record<string, Uint8Array>, bytes: Uint8Array): void {
  for (const path of Object.keys(files)) if (path.startsWith('attachments/')) files[path] = bytes
}

test('[PKG6] an archive that unpacks to far more than it weighs is refused before anything is unpacked', () => {
  const bomb = zipSync({ 'entries.jsonl': new Uint8Array(64 * 1024 * 1024) }, { level: 9 })
  expect(refusal(bomb)).toContain(`${ZIP_LIMITS.ratio} times`)
})

test('[PKG6] an archive that declares less than it unpacks to is refused without giving it room', () => {
  const bomb = zipSync({ 'entries.jsonl': new Uint8Array(8 * 1024 * 1024) }, { level: 9 })
  expect(refusal(patched(bomb, { at: 24, value: 1000 }))).toContain('damaged or more bytes')
})

test('[PKG6] a declared size beyond the limit is refused', () => {
  expect(refusal(patched(soundPackage(), { at: 24, value: 0xfffffff0 }))).toContain('bytes unpacked')
})

test('[PKG5] a symbolic link, an encrypted file and a file there twice are refused', () => {
  const link = zipSync({ 'entries.jsonl': [strToU8('/etc/passwd'), { os: 3, attrs: 0o120777 << 16 }] })
  expect(refusal(link)).toContain('a symbolic link')
  expect(refusal(patched(soundPackage(), { at: 8, value: 1 }))).toContain('encrypted')
  const twice = zipSync({ 'tables/aaaa.csv': strToU8('x'), 'tables/bbbb.csv': strToU8('y') })
  const renamed = Uint8Array.from(twice)
  for (let at = 0; at < renamed.length; at += 1)
    if (strFromU8(renamed.subarray(at, at + 4)) === 'bbbb') renamed.set(strToU8('aaaa'), at)
  expect(refusal(renamed)).toContain('the same name twice')
})

test('[PKG7] a package damaged anywhere is refused or means the same, and never throws', () => {
  const sound = soundPackage()
  const { links } = recordWithPicture()
  fc.assert(
    fc.property(fc.nat(sound.length - 1), fc.integer({ min: 1, max: 255 }), (at, flip) => {
      const damaged = Uint8Array.from(sound)
      damaged[at] = (damaged[at] ?? 0) ^ flip
      const read = readPackage(damaged)
      expect(read.ok ? read.value.links : links).toEqual(links)
    }),
    { numRuns: 400 },
  )
})

/** Changes a field of the first member in the central directory. */
function patched(bytes: Uint8Array, { at, value }: { at: number; value: number }): Uint8Array {
  const copy = Uint8Array.from(bytes)
  const view = new DataView(copy.buffer)
  for (let place = 0; place + 4 <= copy.length; place += 1) {
    if (view.getUint32(place, true) !== 0x02014b50) continue
    if (at === 24) view.setUint32(place + at, value, true)
    else view.setUint16(place + at, value, true)
    return copy
  }
  throw new RangeError('Cannot patch an archive without a member')
}
