import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys conceals a revocation',
  layer: 'keys',
  names: 'devices.3.revoked',
  tamper: () =>
    rejson('keys.json', (keys) => {
      delete keys['devices'][3].revoked
    }),
}
