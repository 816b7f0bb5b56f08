import { expect, test } from 'vitest'
import { unexplainedDependencies } from './dependencies.ts'

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
