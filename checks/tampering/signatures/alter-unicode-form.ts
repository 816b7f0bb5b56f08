import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a letter of a signed note is written in its other Unicode form',
  layer: 'signatures',
  names: 'entry 21',
  tamper: () =>
    altered(21, (entry) => {
      entry.body['text'] = String(entry.body['text']).normalize('NFD')
    }),
}
