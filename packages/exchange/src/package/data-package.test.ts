// The description against the Data Package standard, version 1 (Tabular Data Package, Table Schema), whose rules are written down here
// from memory, and against every cell of the tables it describes.
import { strFromU8, unzipSync } from 'fflate'
import Papa from 'papaparse'
import { expect, test } from 'vitest'
import * as z from 'zod'
import { packageOf, signedEntries } from '../verify/verify.fixture.ts'
import { recordWithPicture } from './package.fixture.ts'
import { writePackage } from './write-package.ts'

const name = z.string().regex(/^[-a-z0-9._/]+$/)
/** memory: profile `tabular-data-package` and what it asks of resources and schemas */
const profile = z.strictObject({
  profile: z.literal('tabular-data-package'),
  name,
  title: z.string(),
  resources: z
    .array(
      z.strictObject({
        profile: z.literal('tabular-data-resource'),
        name,
        title: z.string(),
        path: z.string().regex(/^(?!\/|.*\.\.)[^:]+$/),
        format: z.literal('csv'),
        mediatype: z.literal('text/csv'),
        encoding: z.literal('utf-8'),
        bytes: z.int(),
        hash: z.string().regex(/^sha256:[0-9a-f]{64}$/),
        schema: z.strictObject({
          fields: z
            .array(
              z.strictObject({
                name: z.string().min(1),
                type: z.enum(['string', 'number', 'integer', 'boolean', 'date', 'datetime']),
                format: z.string().optional(),
                constraints: z.strictObject({ required: z.boolean(), unique: z.boolean() }).optional(),
              }),
            )
            .min(1),
          primaryKey: z.string(),
          foreignKeys: z
            .array(
              z.strictObject({
                fields: z.string(),
                reference: z.strictObject({ resource: z.string(), fields: z.string() }),
              }),
            )
            .optional(),
          missingValues: z.array(z.string()),
        }),
      }),
    )
    .min(1),
})

const { links } = recordWithPicture()
const packages = [packageOf(signedEntries()), writePackage(links, { attachments: new Map() })]

/** memory: how Table Schema writes each type where no format is given; for instants, the format that is given */
const WRITTEN: Readonly<Record<string, RegExp>> = {
  string: /^/,
  number: /^-?\d+(\.\d+)?([eE][+-]?\d+)?$/,
  integer: /^-?\d+$/,
  boolean: /^(true|false)$/,
  date: /^\d{4}-\d\d-\d\d$/,
  datetime: /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/,
}

test.each(packages)('[PKG9] the description keeps to the standard, and every cell to the description', (bytes) => {
  const files = unzipSync(bytes)
  const text = (path: string) => strFromU8(files[path] ?? new Uint8Array())
  const { resources } = profile.parse(JSON.parse(text('datapackage.json')))
  const columns = new Map<string, string[]>()
  const wrong: string[] = []
  for (const { name: table, path, schema } of resources) {
    const [header = [], ...rows] = Papa.parse<string[]>(text(path), { skipEmptyLines: true }).data
    expect(header).toEqual(schema.fields.map((field) => field.name))
    for (const [at, field] of schema.fields.entries()) {
      const cells = rows.map((row) => row[at] ?? '')
      columns.set(`${table}.${field.name}`, cells)
      const told = cells.filter((cell) => cell !== '' && WRITTEN[field.type]?.test(cell) !== true)
      wrong.push(...told.map((cell) => `${path} ${field.name}: ${cell}`))
    }
    const keys = columns.get(`${table}.${schema.primaryKey}`) ?? ['no such column']
    expect(new Set(keys).size, table).toBe(keys.length)
    expect(keys).not.toContain('')
  }
  expect(wrong).toEqual([])
  for (const { name: table, schema } of resources)
    for (const { fields, reference } of schema.foreignKeys ?? []) {
      const there = columns.get(`${reference.resource}.${reference.fields}`) ?? []
      expect(
        (columns.get(`${table}.${fields}`) ?? ['?']).filter((cell) => cell !== '' && !there.includes(cell)),
      ).toEqual([])
    }
})

test('[PKG9] references between tables are declared', () => {
  const described = strFromU8(unzipSync(packages[0] ?? new Uint8Array())['datapackage.json'] ?? new Uint8Array())
  const { resources } = profile.parse(JSON.parse(described))
  const declared = resources.flatMap((each) =>
    (each.schema.foreignKeys ?? []).map(
      ({ fields, reference }) => `${each.name}.${fields} → ${reference.resource}.${reference.fields}`,
    ),
  )
  expect(declared).toEqual(
    expect.arrayContaining([
      'exposures.caseCode → cases.code',
      'results.label → samples.label',
      'isolates.label → samples.label',
    ]),
  )
})
