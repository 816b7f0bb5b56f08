import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys leaves a device out',
  layer: 'keys',
  names: 'devices.4',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['devices'].pop()
    }),
}
