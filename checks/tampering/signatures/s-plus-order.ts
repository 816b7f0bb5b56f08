import { p256 } from '@noble/curves/nist.js'
import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the second half of a signature is the order less one',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    bytesOfSignature(
      9,
      (bytes) =>
        new Uint8Array([...bytes.subarray(0, 32), ...Buffer.from((p256.Point.Fn.ORDER - 1n).toString(16), 'hex')]),
    ),
}
