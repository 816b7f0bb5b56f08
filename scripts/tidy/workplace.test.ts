import { expect, test } from 'vitest'
import { workplaceTraces } from './workplace.ts'

const traces = (text: string) => workplaceTraces([{ path: 'a.md', text }]).map((each) => `${each.line}`)
/** The bad texts are put together here, so that this file itself holds none of them. */
const join = (...parts: string[]) => parts.join('')

test.each([
  [join('see ', '/wo', 'rk/main/a.ts')],
  [join("open('/ho", "me/someone/a.csv')")],
  [join('/Us', 'ers/someone')],
  [join('"/t', 'mp/out.pdf"')],
  [join('C:', '\\Users\\someone')],
  [join('htt', 'ps://npm.artifactory.example.org/api')],
  [join('"resolved": "htt', 'ps://packages.example.org/zod.tgz"')],
  [join('regi', 'stry=https://packages.example.org/')],
  [join('see ../sha', 'red/reference/needs.md')],
])('%s is refused', (text) => {
  expect(traces(`fine\n${text}`)).toEqual(['2'])
})

test.each([
  ['https://example.org/home/page and https://example.org/work/page'],
  ['packages/web/home/page.tsx'],
  ['../shared/units.ts'],
  ['`/api/investigations/ID/entries`'],
  ['#!/usr/bin/env node'],
])('%s is allowed', (text) => {
  expect(traces(text)).toEqual([])
})
