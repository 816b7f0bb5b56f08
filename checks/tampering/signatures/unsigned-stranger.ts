import { resealed, unsignedNext, NOTE } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an unsigned entry of a device nobody knows is put in between',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () => resealed((list) => list.toSpliced(19, 0, unsignedNext('phone-8', NOTE))),
}
