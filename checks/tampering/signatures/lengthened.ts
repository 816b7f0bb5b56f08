import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature is given one more byte',
  layer: 'record',
  names: 'signature.value',
  tamper: () => bytesOfSignature(9, (bytes) => new Uint8Array([...bytes, 0])),
}
