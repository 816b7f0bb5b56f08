import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device that never joined is put into the list of keys',
  layer: 'keys',
  names: 'devices.5',
  tamper: () =>
    rejson('keys.json', (keys) => {
      keys['devices'].push({ ...keys['devices'][2], device: 'phone-9' })
    }),
}
