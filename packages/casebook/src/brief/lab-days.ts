import reference from '@rillmark/reference/brief/laboratory.json' with { type: 'json' }

/** After how many days without a result the laboratory is asked. */
export const LAB_DAYS: { readonly value: number; readonly source: string } = reference.resultsExpectedDays
