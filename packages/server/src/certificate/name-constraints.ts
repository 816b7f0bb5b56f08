import { Extension } from '@peculiar/x509'
import { addressBytes } from './address-bytes.ts'
import type { MachineNames } from './machine-names.ts'

/** RFC 5280, section 4.2.1.10. */
export const NAME_CONSTRAINTS = '2.5.29.30'

/** Addresses that are of no one network: RFC 1918, RFC 3927, RFC 4193, RFC 1122 (from memory). First bytes, bits that count. */
const PRIVATE: readonly (readonly [string, number])[] = [
  ['10.0.0.0', 8],
  ['172.16.0.0', 12],
  ['192.168.0.0', 16],
  ['169.254.0.0', 16],
  ['127.0.0.0', 8],
  ['fc00::', 7],
  ['::1', 128],
]
const LOCAL_NAMES = ['localhost', 'local']

/**
 * What an authority of our own may vouch for: names and addresses of local networks, and this machine's. A phone that trusts it can't be
 * lied to about any other site, even by whoever steals its key.
 */
export function nameConstraints(own: MachineNames): Extension {
  const subtrees = [...LOCAL_NAMES.map(nameSubtree), ...PRIVATE.map(networkSubtree), ...ownSubtrees(own)]
  return new Extension(NAME_CONSTRAINTS, true, tagged(SEQUENCE, tagged(PERMITTED, ...subtrees)))
}

/** Which of a machine's names and addresses an authority with these constraints may vouch for. */
export function vouchedFor(constraints: Extension | null, { names, addresses }: MachineNames): MachineNames {
  const written = Buffer.from(constraints?.value ?? new ArrayBuffer(0))
  const isWithin = (own: Partial<MachineNames>): boolean =>
    constraints !== null &&
    ownSubtrees({ names: [], addresses: [], ...own }).every((subtree) => written.includes(subtree))
  return {
    names: names.filter((name) => isWithin({ names: [name] })),
    addresses: addresses.filter((address) => isWithin({ addresses: [address] })),
  }
}

/** What a machine needs beyond what every authority of ours has. */
function ownSubtrees({ names, addresses }: MachineNames): Uint8Array[] {
  const special = names.filter((name) => !LOCAL_NAMES.some((each) => name === each || name.endsWith(`.${each}`)))
  return [
    ...special.map(nameSubtree),
    ...addresses.flatMap((address) => {
      const bytes = addressBytes(address)
      return bytes === undefined || isPrivate(bytes) ? [] : [networkSubtree([address, bytes.length * 8])]
    }),
  ]
}

function isPrivate(bytes: Uint8Array): boolean {
  return PRIVATE.some(([network, bits]) => {
    const [base, mask] = [addressBytes(network), maskOf(bits, bytes.length)]
    return base?.length === bytes.length && base.every((byte, at) => (Number(bytes[at]) & Number(mask[at])) === byte)
  })
}

// What little of DER (X.690) this needs: tag, length, content.
const SEQUENCE = 0x30
const PERMITTED = 0xa0
const DNS_NAME = 0x82
const IP_ADDRESS = 0x87

function nameSubtree(name: string): Uint8Array {
  return tagged(SEQUENCE, tagged(DNS_NAME, Buffer.from(name, 'ascii')))
}

function networkSubtree([network, bits]: readonly [string, number]): Uint8Array {
  const base = addressBytes(network)
  if (base === undefined) throw new RangeError(`Cannot name a network because it is no address: got ${network}`)
  return tagged(SEQUENCE, tagged(IP_ADDRESS, base, maskOf(bits, base.length)))
}

function maskOf(bits: number, length: number): Uint8Array {
  return Uint8Array.from({ length }, (_, at) => 0xff & (0xff00 >> Math.min(8, Math.max(0, bits - at * 8))))
}

function tagged(tag: number, ...parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const content = Buffer.concat(parts)
  const length =
    content.length < 0x80
      ? [content.length]
      : content.length < 0x100
        ? [0x81, content.length]
        : [0x82, content.length >> 8, content.length & 0xff]
  return new Uint8Array([tag, ...length, ...content])
}
