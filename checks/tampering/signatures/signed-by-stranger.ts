import { nextBy, NOTE, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry signed by a device that never joined is put in',
  layer: 'signatures',
  names: 'has not joined',
  tamper: () => appended(nextBy('phone-9', NOTE)),
}
