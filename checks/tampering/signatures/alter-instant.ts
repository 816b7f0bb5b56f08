import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed sample is dated a day later',
  layer: 'signatures',
  names: 'entry 8',
  tamper: () =>
    altered(8, (entry) => {
      entry['instant'] = '2026-03-03T08:02:00.000Z'
    }),
}
