import { expect, test } from 'vitest'
import { undeclaredImports, unexplainedDependencies, unusedDependencies } from './dependencies.ts'
import { parseSource } from './syntax.ts'

const manifest = (libraries: Record<string, string>) => ({
  path: 'package.json',
  text: JSON.stringify({ dependencies: libraries }, null, 2),
})
const found = (libraries: Record<string, string>, page: string) =>
  unexplainedDependencies([manifest(libraries)], page).map((each) => `${each.file}:${each.line} ${each.found}`)

test('each library has one line with a reason; our own rooms need none', () => {
  expect(found({ zod: '4', '@rillmark/science': '*' }, '- `zod` — checks')).toEqual([])
})

test.each([[''], ['- `zod`'], ['- `zod` — '], ['zod checks'], ['- `zod` — checks\n- `zod` — again']])(
  'the page "%s" does not explain zod',
  (page) => {
    expect(found({ zod: '4' }, page)).toEqual([expect.stringContaining('package.json:3 zod has')])
  },
)

test('a line about a library that nobody uses is told', () => {
  expect(found({}, '# Page\n- `zod` — checks')).toEqual(['docs/dependencies.md:2 zod is in no package.json'])
})

const room = (libraries: Record<string, string>) => ({ ...manifest(libraries), path: 'packages/web/package.json' })
const undeclared = (path: string, text: string) =>
  undeclaredImports([parseSource({ path, text })], [manifest({ vitest: '5' }), room({ '@a/b': '1' })]).map(
    ({ line, found: what }) => `${line} ${what}`,
  )

test.each([
  ['packages/web/src/x.ts', "import '@a/b/deep.ts'\nimport './y.ts'\nimport 'node:fs'\nimport '@rillmark/web/z.ts'"],
  ['packages/web/src/x.test.ts', "import 'vitest'"],
  ['packages/web/src/contract.ts', "import 'vitest'"],
  ['packages/web/vite.config.ts', "import 'vitest/config'"],
  ['checks/x.test.ts', "import 'vitest'\nimport '@rillmark/web/x.ts'"],
])('%s may import what is declared where it counts', (path, text) => {
  expect(undeclared(path, text)).toEqual([])
})

test.each([
  ['packages/web/src/x.ts', "import 'zod'", '1 zod is imported but not in packages/web/package.json'],
  [
    'packages/web/src/x.ts',
    "import '@rillmark/casebook/a.ts'",
    '1 @rillmark/casebook is imported but not in packages/web/package.json',
  ],
  ['checks/x.test.ts', "import 'vitest'\nimport '@a/b'", '2 @a/b is imported but not in package.json'],
])('%s with %s is told', (path, text, want) => {
  expect(undeclared(path, text)).toEqual([want])
})

test('a library that a room declares and does not name is told; a style sheet names it too', () => {
  const manifests = [room({ zod: '4', '@font/plex': '5', zod2: '1' })]
  const files = [
    { path: 'packages/web/src/a.ts', text: "import * as z from 'zod'" },
    { path: 'packages/web/src/a.css', text: 'src: url("@font/plex/a.woff2")' },
    { path: 'packages/cli/src/a.ts', text: "import 'zod2'" },
  ]
  expect(unusedDependencies(manifests, files).map((each) => `${each.line} ${each.found}`)).toEqual([
    '5 zod2 is declared, and no file of packages/web names it',
  ])
})
