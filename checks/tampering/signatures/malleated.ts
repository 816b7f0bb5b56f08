import { p256 } from '@noble/curves/nist.js'
import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature is replaced by its twin: n − s in place of s',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () =>
    bytesOfSignature(9, (bytes) => {
      const s = BigInt(`0x${Buffer.from(bytes.subarray(32)).toString('hex')}`)
      const twin = (p256.Point.Fn.ORDER - s).toString(16).padStart(64, '0')
      return new Uint8Array([...bytes.subarray(0, 32), ...Buffer.from(twin, 'hex')])
    }),
}
