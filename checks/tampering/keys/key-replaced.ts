import { rejson } from '../contents.ts'
import { keyOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys gives a device the key of the forger',
  layer: 'keys',
  names: 'devices.2.key',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['devices'][2].key = keyOf('forger').key
    }),
}
