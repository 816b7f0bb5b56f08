import type { MeasureKind } from '@rillmark/casebook/control/measure-progress.ts'
import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'

const FOR: Partial<Record<MeasureKind, readonly string[]>> = {
  'shock chlorination': ['shock-dose', 'clearing-time', 'dechlorination'],
  'continuous disinfection': ['shock-dose'],
  'heat disinfection': ['clearing-time'],
  flush: ['clearing-time', 'dechlorination'],
  'clean or descale': ['shock-dose', 'dechlorination'],
}

/** The calculations a measure calls for, by id and title. */
export function calculationsFor(measure: MeasureKind): { id: string; label: string }[] {
  return (FOR[measure] ?? []).flatMap((id) => {
    const title = findCalculation(id)?.title
    return title === undefined ? [] : [{ id, label: title }]
  })
}
