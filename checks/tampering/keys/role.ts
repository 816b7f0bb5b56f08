import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys gives a device another role',
  layer: 'keys',
  names: 'devices.2.role',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['devices'][2].role = 'lead'
    }),
}
