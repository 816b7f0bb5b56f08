import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a space is put behind a signed word',
  layer: 'signatures',
  names: 'entry 22',
  tamper: () =>
    altered(22, (entry) => {
      entry.body['text'] = 'end of the day '
    }),
}
