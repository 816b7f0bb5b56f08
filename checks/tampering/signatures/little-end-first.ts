import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature is written little end first',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    bytesOfSignature(
      9,
      (bytes) => new Uint8Array([...bytes.subarray(0, 32).toReversed(), ...bytes.subarray(32).toReversed()]),
    ),
}
