import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { Cell } from './csv.ts'

interface Field {
  readonly name: string
  readonly type: 'string' | 'number' | 'integer' | 'boolean' | 'date' | 'datetime'
}

/** One derived table of the package: for reading elsewhere; importing never reads it. */
export interface PackageTable {
  readonly name: string
  readonly title: string
  readonly fields: readonly Field[]
  readonly rows: (state: InvestigationState) => Cell[][]
}

const text = (name: string): Field => ({ name, type: 'string' })
const number = (name: string): Field => ({ name, type: 'number' })
const date = (name: string): Field => ({ name, type: 'date' })
const moment = (name: string): Field => ({ name, type: 'datetime' })

const valueCells = (value: object): Cell[] => {
  const fields = value as { kind: string; value?: number; limit?: number; unit?: string }
  return [fields.kind, fields.value ?? fields.limit, fields.unit]
}

export const PACKAGE_TABLES: readonly PackageTable[] = [
  {
    name: 'cases',
    title: 'Cases, by code',
    fields: [text('code'), date('onsetDate'), text('classification'), text('link'), text('isolate')],
    rows: ({ cases }) =>
      [...cases.cases.values()].map(({ body }) => [
        body.code,
        body.onsetDate,
        body.classification,
        body.link,
        body.isolate,
      ]),
  },
  {
    name: 'exposures',
    title: 'Stays and uses of cases',
    fields: [text('caseCode'), text('place'), text('component'), text('kind'), date('from'), date('to')],
    rows: ({ cases }) =>
      cases.exposures.map(({ body }) => [body.caseCode, body.place, body.component, body.kind, body.from, body.to]),
  },
  {
    name: 'samples',
    title: 'Samples collected',
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
    ],
    rows: ({ fieldwork, custody }) =>
      [...fieldwork.samples.values()].map(({ body, instant }) => [
        body.label,
        body.round,
        body.stop,
        SAMPLE_KIND_WORDS[body.sampleKind],
        body.circuit,
        body.component,
        body.volumeMl,
        instant,
        custody.consignmentOf.get(body.label),
      ]),
  },
  {
    name: 'readings',
    title: 'Readings taken',
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
    ],
    rows: ({ fieldwork }) =>
      fieldwork.readings.map(({ body, instant }) => [
        body.round,
        body.stop,
        body.component,
        body.quantity,
        ...valueCells(body.reading),
        body.instrument,
        body.takenAt ?? instant,
      ]),
  },
  {
    name: 'results',
    title: 'Results as the laboratory reported them',
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
    ],
    rows: ({ results }) =>
      results.results.map(({ body }) => [
        body.label,
        body.laboratory,
        body.method,
        body.target,
        ...valueCells(body.value),
        body.species,
        body.serogroup,
        body.status,
        body.reportedOn,
      ]),
  },
  {
    name: 'isolates',
    title: 'Isolates of cases and samples',
    fields: [text('code'), text('origin'), text('from'), text('species'), text('serogroup'), text('sequenceType')],
    rows: ({ results }) =>
      [...results.isolates.values()].map(({ body }) => [
        body.code,
        body.from.origin,
        body.from.origin === 'case' ? body.from.caseCode : body.from.label,
        body.species,
        body.serogroup,
        body.sequenceType,
      ]),
  },
  {
    name: 'measures',
    title: 'Measures ordered and what became of them',
    fields: [
      text('measure'),
      text('stage'),
      text('where'),
      text('owner'),
      date('dueOn'),
      text('outcome'),
      date('completedOn'),
    ],
    rows: ({ control }) =>
      [...control.measures.values()].map(({ ordered: { body }, completed }) => [
        body.measure,
        body.stage,
        body.where,
        body.owner,
        body.dueOn,
        completed?.body.outcome,
        completed?.body.completedOn,
      ]),
  },
]
