import { resealed, signedBy, nextBy, NOTE } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device begins its numbers again',
  layer: 'record',
  names: 'does not follow',
  tamper: () => resealed((list) => [...list, signedBy('phone-1', { ...nextBy('phone-1', NOTE), deviceSequence: 1 })]),
}
