import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { writeWhole } from './write-whole.ts'

const folder = mkdtempSync(join(tmpdir(), 'rillmark-whole-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('a file takes the place of the one before, with its permissions, and leaves nothing beside it', async () => {
  const path = join(folder, 'a.txt')
  writeFileSync(path, 'before')
  chmodSync(path, 0o600)
  await writeWhole(path, { content: 'after', mode: statSync(path).mode })
  expect(readFileSync(path, 'utf8')).toBe('after')
  expect(statSync(path).mode & 0o777).toBe(0o600)
  expect(readdirSync(folder)).toEqual(['a.txt'])
})

test('what can’t be put in place leaves what was there and nothing beside it', async () => {
  const path = join(folder, 'taken')
  mkdirSync(path)
  writeFileSync(join(path, 'kept'), '')
  await expect(writeWhole(path, { content: new Uint8Array(3) })).rejects.toMatchObject({ syscall: 'rename' })
  expect(readdirSync(path)).toEqual(['kept'])
  expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([])
})
