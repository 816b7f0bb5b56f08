import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys says that a device was revoked',
  layer: 'keys',
  names: 'devices.1.revoked',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['devices'][1].revoked = { entry: 3, reason: 'lost' }
    }),
}
