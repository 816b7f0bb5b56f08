import { hostname, type NetworkInterfaceInfo, networkInterfaces } from 'node:os'

/** What a machine can be called by on its networks. */
export interface MachineNames {
  readonly names: readonly string[]
  readonly addresses: readonly string[]
}

/** A machine as it sees itself: handed in, so that tests need no network. */
export interface Machine {
  readonly hostname: string
  readonly interfaces: Readonly<
    Record<string, readonly Pick<NetworkInterfaceInfo, 'address' | 'internal'>[] | undefined>
  >
}

export function thisMachine(): Machine {
  return { hostname: hostname(), interfaces: networkInterfaces() }
}

const LOOPBACK = ['127.0.0.1', '::1']
const HOST_NAME = /^(?=.{1,253}$)[a-z0-9](?:[a-z0-9-]*[a-z0-9])?(?:\.[a-z0-9](?:[a-z0-9-]*[a-z0-9])?)*$/

/** The names and addresses a certificate must cover: those of every network the machine is on, and itself. */
export function machineNames({ hostname: own, interfaces }: Machine): MachineNames {
  const name = own.toLowerCase()
  const addresses = outsideAddresses({ hostname: own, interfaces })
  const names = HOST_NAME.test(name) ? [name, ...(name.includes('.') ? [] : [`${name}.local`])] : []
  return { names: [...new Set(['localhost', ...names])], addresses: [...new Set([...LOOPBACK, ...addresses])] }
}

/**
 * Addresses others can reach it at, those of version 4 first: they are the ones people can type. Of version 6 only those of local networks
 * (fc00::/7, RFC 4193) are among them: those of one cable alone (fe80::) can't be typed into a browser, and the others are made anew every day
 * (RFC 8981), so that nobody types them either.
 */
export function outsideAddresses({ interfaces }: Machine): string[] {
  const found = Object.values(interfaces)
    .flatMap((each) => each ?? [])
    .filter(({ address, internal }) => !internal && (!address.includes(':') || /^f[cd]/i.test(address)))
    .map(({ address }) => address)
  return [...found.filter((each) => !each.includes(':')), ...found.filter((each) => each.includes(':'))]
}
