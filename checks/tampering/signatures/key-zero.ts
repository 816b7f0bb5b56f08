import type { DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import { thumbprint } from '@rillmark/casebook/devices/signed-text.ts'
import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a key of zeros joins, its name made to fit',
  layer: 'signatures',
  names: 'entry 4',
  tamper: () =>
    altered(4, (entry) => {
      const zero = 'A'.repeat(43)
      entry.body['key'] = { kty: 'EC', crv: 'P-256', x: zero, y: zero }
      entry.signature.key = thumbprint(entry.body['key'] as DeviceKey)
    }),
}
