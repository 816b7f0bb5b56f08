import { p256 } from '@noble/curves/nist.js'
import type { DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import { thumbprint } from '@rillmark/casebook/devices/signed-text.ts'
import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the point of a key is mirrored, its name made to fit',
  layer: 'signatures',
  names: 'entry 4',
  tamper: () =>
    altered(4, (entry) => {
      const key = entry.body['key'] as { x: string; y: string }
      const y = BigInt(`0x${Buffer.from(key.y, 'base64url').toString('hex')}`)
      const mirrored = (p256.Point.Fp.ORDER - y).toString(16).padStart(64, '0')
      entry.body['key'] = { ...key, y: Buffer.from(mirrored, 'hex').toString('base64url') }
      entry.signature.key = thumbprint(entry.body['key'] as DeviceKey)
    }),
}
