import { type DisplayUnits, displayUnitsFrom } from '@rillmark/casebook/units/display-units.ts'

/** The units kept on this device, also as they were kept before lengths and bores were told apart. */
export function keptUnits(kept: unknown): DisplayUnits {
  const given: Record<string, unknown> = typeof kept === 'object' && kept !== null ? { ...kept } : {}
  const before = {
    ...(given['volume'] === 'gal' ? { volume: 'US gal' } : {}),
    ...(given['length'] === 'in' ? { bore: 'in', length: 'ft' } : {}),
  }
  return displayUnitsFrom({ ...given, ...before })
}
