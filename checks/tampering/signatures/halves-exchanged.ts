import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the halves of a signature are exchanged',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => bytesOfSignature(9, (bytes) => new Uint8Array([...bytes.subarray(32), ...bytes.subarray(0, 32)])),
}
