import { p256 } from '@noble/curves/nist.js'
import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the first half of a signature is the order of the curve',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    bytesOfSignature(
      9,
      (bytes) => new Uint8Array([...Buffer.from(p256.Point.Fn.ORDER.toString(16), 'hex'), ...bytes.subarray(32)]),
    ),
}
