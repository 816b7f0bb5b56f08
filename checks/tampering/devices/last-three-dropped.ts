import { resealed } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the last three entries are dropped',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () => resealed((list) => list.slice(0, -3)),
}
