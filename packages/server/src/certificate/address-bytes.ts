import { isIP } from 'node:net'

/** The 4 or 16 bytes of an IP address; undefined for text that is none. */
export function addressBytes(address: string): Uint8Array | undefined {
  const version = isIP(address)
  if (version === 4) return Uint8Array.from(address.split('.'), Number)
  // an address of version 6 that ends in one of version 4, or names its cable, is no address of a certificate
  if (version !== 6 || address.includes('.') || address.includes('%')) return undefined
  const [head = '', tail] = address.split('::')
  const groups = (text: string | undefined): string[] => (text === undefined || text === '' ? [] : text.split(':'))
  const [first, last] = [groups(head), groups(tail)]
  const between = Array.from({ length: GROUPS - first.length - last.length }, () => '0')
  return Uint8Array.from(
    [...first, ...between, ...last].flatMap((group) => {
      const value = Number.parseInt(group, 16)
      return [value >> 8, value & 0xff]
    }),
  )
}

const GROUPS = 8
