import { resealed } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the whole record is renamed to another investigation',
  layer: 'record',
  names: 'body.entry.investigation',
  tamper: () => resealed((list) => list.map((entry) => ({ ...entry, investigation: 'gull-court' }))),
}
