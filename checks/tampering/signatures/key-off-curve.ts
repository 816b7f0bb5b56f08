import type { DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import { thumbprint } from '@rillmark/casebook/devices/signed-text.ts'
import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a key is moved off the curve, its name made to fit',
  layer: 'signatures',
  names: 'entry 4',
  tamper: () =>
    altered(4, (entry) => {
      const key = entry.body['key'] as DeviceKey
      entry.body['key'] = { ...key, y: `A${key.y.slice(1)}` }
      entry.signature.key = thumbprint(entry.body['key'] as DeviceKey)
    }),
}
