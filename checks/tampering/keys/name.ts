import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys names a device otherwise',
  layer: 'keys',
  names: 'devices.2.name',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['devices'][2].name = 'phone of F. Moss'
    }),
}
