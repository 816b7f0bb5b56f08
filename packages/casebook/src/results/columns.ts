/** What a column of a result file can hold besides the results themselves, with the words shown to people. */
export const COLUMN_ROLES = {
  label: 'sample label',
  place: 'place',
  unit: 'unit',
  qualifier: 'sign before the value (<, >)',
  limit: 'detection limit',
  volumeMl: 'volume examined, mL',
  method: 'method',
  target: 'organism looked for',
  species: 'species',
  serogroup: 'serogroup',
  collectedOn: 'collected on',
  received: 'received on',
  reportedOn: 'reported on',
  status: 'status of the report',
  reportId: 'report number',
  temperatureC: 'temperature, °C',
  draw: 'first draw or flushed',
  sampleKind: 'sample kind',
  circuit: 'hot or cold',
  group: 'group or campaign',
  notes: 'remarks',
} as const

export type ColumnRole = keyof typeof COLUMN_ROLES

export const columnRoles = Object.keys(COLUMN_ROLES) as ColumnRole[]
