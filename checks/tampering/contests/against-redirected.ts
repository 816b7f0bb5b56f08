import { altered } from '../forge.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a contest is turned on another entry',
  layer: 'signatures',
  names: 'entry 13',
  tamper: () => altered(13, ({ body }) => (body['against'] = [entries[8]?.id])),
}
