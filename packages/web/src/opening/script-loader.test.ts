import { expect, test } from 'vitest'
import { type Namespace, scriptLoader } from './script-loader.ts'

/** screen → kit → runtime, and record → runtime; kit and record are in one file, the runtime's is there from the start. */
const TABLE = {
  parts: ['screen.js', 'kit.js', 'record.js', 'runtime.js'],
  imports: [[1], [3], [3], []],
  files: ['screen-file.js', 'both-file.js', 'both-file.js', 'first-file.js'],
}

function page({ cut = [] }: { cut?: string[] } = {}) {
  const added: string[] = []
  const ran: string[] = []
  const loader = scriptLoader(TABLE, {
    addressOf: (name) => `https://example.org/assets/${name}`,
    add: async (file) => {
      added.push(file)
      await Promise.resolve()
      if (cut.splice(0).includes(file)) throw new TypeError('cut')
      arrive(file)
    },
  })
  let asked = 0
  function arrive(file: string): void {
    for (const [at, part] of TABLE.parts.entries())
      if (TABLE.files[at] === file)
        loader.define(part, (imported, give) => {
          for (const each of TABLE.imports[at] ?? []) imported(TABLE.parts[each] ?? '')
          ran.push(part)
          give('name', () => part)
          give('asked', () => (asked += 1))
        })
  }
  arrive('first-file.js')
  return { loader, added, ran }
}

test('a part is fetched with the files of all it imports, each once, and runs after them, once', async () => {
  const { loader, added, ran } = page()
  const [screen, again] = await Promise.all([loader.later('screen.js'), loader.later('screen.js')])
  expect(screen['name']).toBe('screen.js')
  expect(again).toBe(screen)
  await loader.later('record.js')
  expect(added).toEqual(['screen-file.js', 'both-file.js'])
  expect(ran).toEqual(['runtime.js', 'kit.js', 'screen.js', 'record.js'])
})

test('what is fetched early does not run before it is wanted, and what is there is not fetched again', async () => {
  const { loader, added, ran } = page()
  expect([...loader.filesOf('screen.js')]).toEqual(['screen-file.js', 'both-file.js'])
  loader.fetchSoon('screen.js')
  await new Promise((resolve) => setTimeout(resolve))
  expect(added).toEqual(['screen-file.js', 'both-file.js'])
  expect(ran).toEqual([])
  await loader.later('screen.js')
  expect(added).toHaveLength(2)
})

test('a file that could not be fetched is said to be missing, and fetched again when it is asked for again', async () => {
  const { loader, added } = page({ cut: ['screen-file.js'] })
  await expect(loader.later('screen.js')).rejects.toThrow('cut')
  expect((await loader.later('screen.js'))['name']).toBe('screen.js')
  expect(added.filter((file) => file === 'screen-file.js')).toHaveLength(2)
})

test('what a part gives is read at each use, as an import of a module is', async () => {
  const { loader } = page()
  const given: Namespace = await loader.later('record.js')
  expect([given['asked'], given['asked']]).toEqual([1, 2])
  expect(Object.keys(given)).toEqual(['name', 'asked'])
})
