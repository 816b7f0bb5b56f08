import { expect, test } from 'vitest'
import { barrels, circularFolders, circularImports, wrongWayImports } from './rooms.ts'
import { parseSource } from './syntax.ts'

const file = (path: string, text: string) => parseSource({ path, text })
const wrong = (path: string, text: string) => wrongWayImports([file(path, text)]).map((each) => each.found)

test.each([
  ['packages/science/src/a/a.ts', "import { x } from '@rillmark/casebook/cases/state.ts'", 'science imports casebook'],
  ['packages/casebook/src/a/a.ts', "export * from '@rillmark/exchange/labels/sheet.ts'", 'casebook imports exchange'],
  ['packages/web/src/a.ts', "import type { Api } from '@rillmark/server/api/routes.ts'", 'web imports server'],
  ['packages/web/src/a.ts', "const x = await import('@rillmark/server/api/routes.ts')", 'web imports server'],
  [
    'packages/science/src/a/a.ts',
    "import { x } from '../../../casebook/src/cases/state.ts'",
    'science imports casebook',
  ],
  ['packages/server/src/a.ts', "import { run } from '../../../scripts/run.ts'", 'server imports scripts'],
  ['reference/load.ts', "import { x } from '@rillmark/science/a/a.ts'", 'reference imports science'],
])('%s may not hold %s', (path, text, found) => {
  expect(wrong(path, text)).toEqual([expect.stringContaining(found)])
})

test.each([
  ['packages/casebook/src/a/a.ts', "import { x } from '@rillmark/science/a/a.ts'"],
  ['packages/science/src/a/a.ts', "import data from '@rillmark/reference/pipes/copper.json' with { type: 'json' }"],
  ['packages/cli/src/a.ts', "import { serve } from '@rillmark/server/serve.ts'"],
  ['packages/web/src/plan/screen.tsx', "import { Button } from '../kit/button.tsx'"],
  ['packages/web/src/plan/screen.tsx', "import { AtHand } from '../calculators/AtHand.tsx'"],
  ['checks/a.test.ts', "import { x } from '@rillmark/server/serve.ts'"],
])('%s may hold %s', (path, text) => {
  expect(wrong(path, text)).toEqual([])
})

test('a neighbouring room is reached by name, not by path', () => {
  const [found] = wrong('packages/casebook/src/a/a.ts', "import { x } from '../../../science/src/a/a.ts'")
  expect(found).toContain('by path')
})

test('the screens of one step do not use those of another', () => {
  const [found] = wrong('packages/web/src/plan/screen.tsx', "import { Tree } from '../building/tree.tsx'")
  expect(found).toBe('the screens of plan import those of building')
  const [known] = wrong('packages/web/src/calculators/page.tsx', "import { Tree } from '../building/tree.tsx'")
  expect(known).toBe('the screens of calculators import those of building')
})

test('a circle of files is found once and told whole', () => {
  const circle = [
    file('packages/science/src/a/a.ts', "import { b } from './b.ts'"),
    file('packages/science/src/a/b.ts', "import { c } from '@rillmark/science/a/c.ts'"),
    file('packages/science/src/a/c.ts', "\nexport { a } from './a.ts'"),
  ]
  expect(circularImports(circle)).toEqual([
    expect.objectContaining({
      file: 'packages/science/src/a/a.ts',
      line: 1,
      found: expect.stringContaining('a.ts → packages/science/src/a/b.ts → '),
    }),
  ])
  expect(circularImports(circle.slice(0, 2))).toEqual([])
})

test('folders that import each other, if only types, are a circle; one way round is none', () => {
  const folders = [
    file('packages/server/src/api/app.ts', "import { guard } from '../access/guard.ts'"),
    file('packages/server/src/access/guard.ts', "\nimport type { Problem } from '../api/problems.ts'"),
  ]
  expect(circularFolders(folders)).toEqual([
    expect.objectContaining({
      file: 'packages/server/src/api/app.ts',
      found:
        'folders import each other: packages/server/src/api → packages/server/src/access → packages/server/src/api',
    }),
  ])
  expect(circularFolders(folders.slice(0, 1))).toEqual([])
})

test('a file that imports itself is a circle; types alone are not', () => {
  expect(circularImports([file('packages/science/src/a.ts', "import { a } from './a.ts'")])).toHaveLength(1)
  const types = [
    file('packages/science/src/a.ts', "import type { B } from './b.ts'"),
    file('packages/science/src/b.ts', "import { a } from './a.ts'"),
  ]
  expect(circularImports(types)).toEqual([])
})

test.each([
  ['packages/science/src/a/all.ts', "export * from './a.ts'\nexport { b } from './b.ts'", 1],
  ['packages/science/src/a/index.ts', 'export const a = 1', 1],
  ['packages/science/src/a/a.ts', "export * from './b.ts'\nexport const a = 1", 0],
])('%s with %s is a barrel: %i', (path, text, count) => {
  expect(barrels([file(path, text)])).toHaveLength(count)
})
