import { signedOver, textOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry is signed with a line end behind it',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => signedOver(9, (entry) => `${textOf(entry)}\n`),
}
