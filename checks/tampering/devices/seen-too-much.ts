import { resealed, signedBy, unsignedNext, joinOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry that had seen the whole record is moved to its beginning',
  layer: 'devices',
  names: 'entry 2',
  tamper: () =>
    resealed((list) =>
      list.toSpliced(
        1,
        0,
        signedBy('phone-9', {
          ...unsignedNext('phone-9', joinOf('phone-9', { role: 'sampler', by: 'phone-9' })),
          seen: 20,
        }),
      ),
    ),
}
