// Every number the steps of the job use says where it is from and how it is known; a figure also says its unit.
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

/** What `figures.test.ts` and the schemas of procedures and criteria sets do not read. */
const FOLDERS = [
  'brief',
  'building',
  'calibration',
  'cases',
  'control',
  'devices',
  'fieldwork',
  'findings',
  'plan',
  'results',
]
const KNOWN = new Set<unknown>(['seen', 'computed', 'memory'])

const files = FOLDERS.flatMap((folder) =>
  readdirSync(new URL(`${folder}/`, import.meta.url))
    .filter((name) => name.endsWith('.json'))
    .map((name) => `${folder}/${name}`),
)

type Fields = Readonly<Record<string, unknown>>

function unsourced(value: unknown, at: { path: string; sourced: boolean }): string[] {
  if (typeof value === 'number') return at.sourced ? [] : [`${at.path}: a number without source`]
  if (typeof value !== 'object' || value === null) return []
  if (Array.isArray(value))
    return value.flatMap((one, index) => unsourced(one, { ...at, path: `${at.path}[${index}]` }))
  const fields: Fields = { ...value }
  const own = typeof fields['source'] === 'string' && fields['source'].trim() !== '' && KNOWN.has(fields['known'])
  const unitless = 'value' in fields && (typeof fields['unit'] !== 'string' || fields['unit'] === '')
  return [
    ...(unitless ? [`${at.path}: a figure without unit`] : []),
    ...('known' in fields && !own ? [`${at.path}: known, but from no source or in no known way`] : []),
    ...Object.entries(fields).flatMap(([name, one]) =>
      unsourced(one, { path: `${at.path}.${name}`, sourced: at.sourced || own }),
    ),
  ]
}

test.each(files)('%s: every number has a source, every figure a unit', (path) => {
  const data: unknown = JSON.parse(readFileSync(new URL(path, import.meta.url), 'utf8'))
  expect(unsourced(data, { path, sourced: false })).toEqual([])
})

test.each([
  [{ a: 1 }, 'x.a: a number without source'],
  [{ a: { value: 1, source: 'a book', known: 'seen' } }, 'x.a: a figure without unit'],
  [{ a: { value: 'much', unit: 'L', source: '', known: 'seen' } }, 'x.a: known, but from no source or in no known way'],
  [
    { a: { value: 'much', unit: 'L', source: 'a book', known: 'heard' } },
    'x.a: known, but from no source or in no known way',
  ],
])('%j is told', (data, want) => {
  expect(unsourced(data, { path: 'x', sourced: false })).toEqual([want])
})
