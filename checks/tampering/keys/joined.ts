import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys lets a device join later',
  layer: 'keys',
  names: 'devices.2.joined',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['devices'][2].joined = 9
    }),
}
