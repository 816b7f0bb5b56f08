import { expect, test } from 'vitest'
import { deadLinks } from './links.ts'

const PATHS = ['README.md', 'docs/plan.md', 'packages/web/README.md']
const found = (path: string, text: string) =>
  deadLinks([{ path, text }], PATHS).map((each) => `${each.line}: ${each.found}`)

test.each([
  ['README.md', '[plan](docs/plan.md) and [app](packages/web) and [part](docs/plan.md#labels)'],
  ['docs/plan.md', '[up](../README.md), [here](#here), [elsewhere](https://example.org/x)'],
])('%s may hold %s', (path, text) => {
  expect(found(path, text)).toEqual([])
})

test.each([
  ['README.md', '\n[plan](plan.md)', '2: no file plan.md'],
  ['README.md', '![picture](docs/picture.png)', '1: no file docs/picture.png'],
  ['docs/plan.md', '[up](README.md)', '1: no file docs/README.md'],
])('%s may not hold %s', (path, text, want) => {
  expect(found(path, text)).toEqual([want])
})
