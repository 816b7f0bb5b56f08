import type { MeasureKind } from '@rillmark/casebook/control/measure-progress.ts'
import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'

const FOR: Partial<Record<MeasureKind, readonly string[]>> = {
  'shock chlorination': ['shock-dose', 'pipe-volume', 'disinfectant-contact', 'clearing-time', 'dechlorination'],
  'continuous disinfection': ['shock-dose', 'hypochlorous-fraction', 'residual-decay', 'disinfectant-contact'],
  'heat disinfection': ['heat-inactivation', 'clearing-time', 'scald-time'],
  flush: ['clearing-time', 'pipe-volume', 'dechlorination'],
  'balance recirculation': ['loop-temperature', 'pipe-heat-loss'],
  'change setting': ['scald-time', 'mixed-temperature', 'loop-temperature'],
  'clean or descale': ['shock-dose', 'dechlorination'],
  'remove dead leg': ['pipe-volume', 'standing-cooling'],
}

/** The calculations a measure calls for, by id and title. */
export function calculationsFor(measure: MeasureKind): { id: string; label: string }[] {
  return (FOR[measure] ?? []).flatMap((id) => {
    const title = findCalculation(id)?.title
    return title === undefined ? [] : [{ id, label: title }]
  })
}
