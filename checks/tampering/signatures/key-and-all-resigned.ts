import { resealed, signedBy, keyOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the key of a device is replaced and all it wrote signed afresh',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () =>
    resealed((list) =>
      list
        .map((entry) => {
          if (entry.device !== 'phone-2') return entry
          if (entry['kind'] === 'device.joined') entry.body['key'] = keyOf('forger').key
          return signedBy('forger', entry)
        })
        .map((entry, _, list) => {
          if (entry['kind'] !== 'entry.contested') return entry
          entry.body['entry'] = signedBy('forger', entry.body['entry'] as object)
          return list.includes(entry) ? signedBy('server', entry) : entry
        }),
    ),
}
