import { p256 } from '@noble/curves/nist.js'
import { toBase64url, fromBase64url } from '@rillmark/casebook/devices/base64url.ts'
import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature is written in DER',
  layer: 'record',
  names: 'signature.value',
  tamper: () =>
    altered(9, (entry) => {
      entry.signature.value = toBase64url(
        p256.Signature.fromBytes(fromBase64url(entry.signature.value) ?? new Uint8Array(), 'compact').toBytes('der'),
      )
    }),
}
