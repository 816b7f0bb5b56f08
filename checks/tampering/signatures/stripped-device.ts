import { resealed, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'all signatures of a device but that of its joining are stripped',
  layer: 'signatures',
  names: 'entry 8',
  tamper: () =>
    resealed((list) =>
      list.map((entry) => {
        if (entry.device === 'phone-1' && entry['kind'] !== 'device.joined') delete (entry as Partial<Loose>).signature
        return entry
      }),
    ),
}
