import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import type { Cell } from './csv.ts'
import { date, entryId, moment, number, type PackageTable, text } from './package-table.ts'
import { CUSTODY_TABLES } from './tables-custody.ts'

/** What the tables are called as a whole: it changes with any column or cell of theirs, so that a verifier knows which it can make. */
export const TABLES_VERSION = 'rillmark/tables@1'

const valueCells = (value: object): Cell[] => {
  const fields = value as { kind: string; value?: number; limit?: number; unit?: string }
  return [fields.kind, fields.value ?? fields.limit, fields.unit]
}

export const PACKAGE_TABLES: readonly PackageTable[] = [
  {
    name: 'cases',
    title: 'Cases, by code',
    key: 'code',
    fields: [text('code'), date('onsetDate'), text('classification'), text('link'), text('isolate'), entryId],
    rows: ({ cases }) =>
      [...cases.cases.values()].map(({ id, body }) => [
        body.code,
        body.onsetDate,
        body.classification,
        body.link,
        body.isolate,
        id,
      ]),
  },
  {
    name: 'exposures',
    title: 'Stays and uses of cases',
    key: 'entry',
    refers: [{ field: 'caseCode', table: 'cases', its: 'code' }],
    fields: [text('caseCode'), text('place'), text('component'), text('kind'), date('from'), date('to'), entryId],
    rows: ({ cases }) =>
      cases.exposures.map(({ id, body }) => [
        body.caseCode,
        body.place,
        body.component,
        body.kind,
        body.from,
        body.to,
        id,
      ]),
  },
  {
    name: 'samples',
    title: 'Samples collected',
    key: 'label',
    fields: [
      text('label'),
      text('round'),
      text('stop'),
      text('sampleKind'),
      text('circuit'),
      text('component'),
      number('volumeMl'),
      moment('collected'),
      text('consignment'),
      entryId,
    ],
    rows: ({ fieldwork, custody }) =>
      [...fieldwork.samples.values()].map(({ id, body, instant }) => [
        body.label,
        body.round,
        body.stop,
        SAMPLE_KIND_WORDS[body.sampleKind],
        body.circuit,
        body.component,
        body.volumeMl,
        instant,
        custody.consignmentOf.get(body.label),
        id,
      ]),
  },
  ...CUSTODY_TABLES,
  {
    name: 'readings',
    title: 'Readings taken',
    key: 'entry',
    fields: [
      text('round'),
      text('stop'),
      text('component'),
      text('quantity'),
      text('reading'),
      number('value'),
      text('unit'),
      text('instrument'),
      moment('taken'),
      entryId,
    ],
    rows: ({ fieldwork }) =>
      fieldwork.readings.map(({ id, body, instant }) => [
        body.round,
        body.stop,
        body.component,
        body.quantity,
        ...valueCells(body.reading),
        body.instrument,
        body.takenAt ?? instant,
        id,
      ]),
  },
  {
    name: 'results',
    title: 'Results as the laboratory reported them',
    key: 'entry',
    refers: [{ field: 'label', table: 'samples', its: 'label' }],
    fields: [
      text('label'),
      text('laboratory'),
      text('method'),
      text('target'),
      text('result'),
      number('value'),
      text('unit'),
      text('species'),
      text('serogroup'),
      text('status'),
      date('reportedOn'),
      entryId,
    ],
    rows: ({ results }) =>
      results.results.map(({ id, body }) => [
        body.label,
        body.laboratory,
        body.method,
        body.target,
        ...valueCells(body.value),
        body.species,
        body.serogroup,
        body.status,
        body.reportedOn,
        id,
      ]),
  },
  {
    name: 'isolates',
    title: 'Isolates of cases and samples',
    key: 'code',
    refers: [
      { field: 'caseCode', table: 'cases', its: 'code' },
      { field: 'label', table: 'samples', its: 'label' },
    ],
    fields: [
      text('code'),
      text('origin'),
      text('caseCode'),
      text('label'),
      text('species'),
      text('serogroup'),
      text('sequenceType'),
      entryId,
    ],
    rows: ({ results }) =>
      [...results.isolates.values()].map(({ id, body }) => [
        body.code,
        body.from.origin,
        body.from.origin === 'case' ? body.from.caseCode : undefined,
        body.from.origin === 'case' ? undefined : body.from.label,
        body.species,
        body.serogroup,
        body.sequenceType,
        id,
      ]),
  },
  {
    name: 'measures',
    title: 'Measures ordered and what became of them',
    key: 'entry',
    fields: [
      text('measure'),
      text('stage'),
      text('where'),
      text('owner'),
      date('dueOn'),
      text('outcome'),
      date('completedOn'),
      entryId,
    ],
    rows: ({ control }) =>
      [...control.measures.values()].map(({ ordered: { id, body }, completed }) => [
        body.measure,
        body.stage,
        body.where,
        body.owner,
        body.dueOn,
        completed?.body.outcome,
        completed?.body.completedOn,
        id,
      ]),
  },
]
