import { unsignedNext, NOTE, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an unsigned entry is put in under the name of a device that signs',
  layer: 'signatures',
  names: 'it is not signed',
  tamper: () => appended(unsignedNext('phone-1', NOTE)),
}
