import type { DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a coordinate of a key loses its first byte',
  layer: 'record',
  names: 'key.x',
  tamper: () =>
    altered(4, (entry) => {
      const key = entry.body['key'] as DeviceKey
      entry.body['key'] = { ...key, x: key.x.slice(2) }
    }),
}
