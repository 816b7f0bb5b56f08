import { rejson } from '../contents.ts'
import { keyOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys names a key otherwise',
  layer: 'keys',
  names: 'devices.2.thumbprint',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['devices'][2].thumbprint = keyOf('forger').thumbprint
    }),
}
