import { BlockList, isIP } from 'node:net'
import type { FastifyInstance } from 'fastify'
import { problem } from '../http/problem.ts'
import type { Front, Proxy } from './front.ts'

/** What proxies add to a request. */
const FORWARDED = ['forwarded', 'x-forwarded-for', 'x-forwarded-host', 'x-forwarded-proto', 'x-real-ip']
/** A proxy asks for it by plain HTTP, to see whether the server answers. */
const HEALTH = '/api/health'

/**
 * Holds a server to where it was said to stand. Behind a proxy it takes requests from that proxy alone, and of those only what came to it by
 * HTTPS. Said to stand alone on its machine, it takes nothing that a proxy passed on: that would open it to everybody.
 */
export function guardProxy(app: FastifyInstance, front: Front): void {
  if (front.kind === 'open') refuseProxies(app)
  else if (front.proxy !== undefined) takeFromProxyOnly(app, front.proxy)
}

function refuseProxies(app: FastifyInstance): void {
  app.addHook('onRequest', async ({ headers }) => {
    const found = FORWARDED.find((name) => headers[name] !== undefined)
    if (found === undefined) return
    const expected = 'no proxy in front, or a start with --behind-proxy'
    throw problem(403, { path: found, expected, received: String(headers[found]) })
  })
}

function takeFromProxyOnly(app: FastifyInstance, proxy: Proxy): void {
  const trusted = trustedAddresses(proxy.addresses)
  app.addHook('onRequest', async (request) => {
    const from = request.raw.socket.remoteAddress ?? ''
    if (!isIn(trusted, from))
      throw problem(403, { path: 'address', expected: 'a request through the proxy', received: from })
    if (request.protocol !== 'https' && request.url !== HEALTH)
      throw problem(403, {
        path: 'x-forwarded-proto',
        expected: 'https, said by the proxy',
        received: request.protocol,
      })
  })
}

/**
 * A list of addresses and networks (192.0.2.1, 192.0.2.0/24).
 * @throws RangeError for what is neither
 */
export function trustedAddresses(addresses: readonly string[]): BlockList {
  const list = new BlockList()
  for (const each of addresses) {
    const [address = '', bits, more] = each.split('/')
    const family = isIP(address) === 6 ? 'ipv6' : 'ipv4'
    const isNetwork = bits !== undefined && /^\d{1,3}$/.test(bits) && Number(bits) <= (family === 'ipv6' ? 128 : 32)
    if (isIP(address) === 0 || more !== undefined || (bits !== undefined && !isNetwork))
      throw new RangeError(`Cannot trust a proxy because it is no address: got ${each}`)
    if (bits === undefined) list.addAddress(address, family)
    else list.addSubnet(address, Number(bits), family)
  }
  return list
}

function isIn(list: BlockList, address: string): boolean {
  const plain = address.replace(/^::ffff:(?=\d+\.)/i, '')
  const version = isIP(plain)
  return version !== 0 && list.check(plain, version === 6 ? 'ipv6' : 'ipv4')
}
