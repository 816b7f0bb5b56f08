import { PACKAGE_TABLES } from './tables.ts'

/** Describes the tables in the words of the Data Package standard (Frictionless Data, version 1), so that any tool can type them. */
export function dataPackage(investigation: string): object {
  return {
    profile: 'tabular-data-package',
    name: investigation,
    resources: PACKAGE_TABLES.map(({ name, title, fields }) => ({
      profile: 'tabular-data-resource',
      name,
      title,
      path: `tables/${name}.csv`,
      encoding: 'utf-8',
      schema: { fields, missingValues: [''] },
    })),
  }
}
