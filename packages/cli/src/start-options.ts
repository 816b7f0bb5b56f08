import { parseArgs } from 'node:util'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { trustedAddresses } from '@rillmark/server/access/guard-proxy.ts'

/** What `start` was asked to do. */
export interface StartOptions {
  readonly data: string
  readonly port: number
  readonly host: string
  readonly demo: boolean
  readonly open: boolean
  readonly inviteLead: boolean
  readonly newAuthority: boolean
  readonly plainHttp: boolean
  readonly proxy?: { readonly origin: string; readonly addresses: readonly string[] }
}

type Read = { readonly ok: true; readonly value: StartOptions } | { readonly ok: false; readonly issues: Issue[] }

const HIGHEST_PORT = 65_535
const USUAL_PROXIES = '127.0.0.1,::1'
const KNOWN =
  '--data FOLDER, --port N, --host ADDRESS, --demo, --no-open, --invite-lead, --new-authority, --behind-proxy ORIGIN, --plain-http or --proxy ADDRESS'

/** Reads the options; all that is wrong with them at once. */
export function readStartOptions(args: readonly string[]): Read {
  const asked = parsed(args)
  if (asked === undefined) {
    const issue = statedIssue('arguments', { expected: KNOWN, received: args.join(' ') || undefined })
    return { ok: false, issues: [issue] }
  }
  const issues = [...portIssues(asked), ...proxyIssues(asked)]
  if (issues.length > 0) return { ok: false, issues }
  const { data, host, demo, open } = asked
  const behind = asked['behind-proxy']
  const proxy = behind === undefined ? {} : { proxy: { origin: behind, addresses: addressesOf(asked) } }
  const more = {
    inviteLead: asked['invite-lead'],
    newAuthority: asked['new-authority'],
    plainHttp: asked['plain-http'],
  }
  return { ok: true, value: { data, host, demo, open, port: Number(asked.port), ...more, ...proxy } }
}

type Asked = NonNullable<ReturnType<typeof parsed>>

function parsed(args: readonly string[]) {
  try {
    const { values } = parseArgs({
      args: [...args],
      allowNegative: true,
      options: {
        data: { type: 'string', default: './data' },
        port: { type: 'string', default: '8710' },
        host: { type: 'string', default: '127.0.0.1' },
        demo: { type: 'boolean', default: false },
        open: { type: 'boolean', default: true },
        'invite-lead': { type: 'boolean', default: false },
        'new-authority': { type: 'boolean', default: false },
        'behind-proxy': { type: 'string' },
        'plain-http': { type: 'boolean', default: false },
        proxy: { type: 'string' },
      },
    })
    return values.data === '' || values.host === '' ? undefined : values
  } catch {
    return undefined
  }
}

function portIssues({ port }: Asked): Issue[] {
  if (/^\d{1,5}$/.test(port) && Number(port) <= HIGHEST_PORT) return []
  return [statedIssue('--port', { expected: `a whole number from 0 to ${HIGHEST_PORT}`, received: port })]
}

function proxyIssues(asked: Asked): Issue[] {
  const behind = asked['behind-proxy']
  const alone = { expected: 'it together with --behind-proxy', received: 'it alone' }
  if (behind === undefined)
    return [
      ...(asked['plain-http'] ? [statedIssue('--plain-http', alone)] : []),
      ...(asked.proxy === undefined ? [] : [statedIssue('--proxy', alone)]),
    ]
  return [
    ...(isHttpsOrigin(behind)
      ? []
      : [
          statedIssue('--behind-proxy', {
            expected: 'an address such as https://cases.agency.example',
            received: behind,
          }),
        ]),
    ...(areAddresses(addressesOf(asked))
      ? []
      : [statedIssue('--proxy', { expected: 'addresses or networks, with commas between', received: asked.proxy })]),
  ]
}

const addressesOf = ({ proxy = USUAL_PROXIES }: Asked): string[] => proxy.split(',').map((each) => each.trim())

function isHttpsOrigin(text: string): boolean {
  return URL.canParse(text) && new URL(text).protocol === 'https:' && new URL(text).origin === text
}

function areAddresses(addresses: readonly string[]): boolean {
  try {
    trustedAddresses(addresses)
    return true
  } catch {
    return false
  }
}
