import type { DeviceKey } from '../devices/kinds.ts'
import { serverDevice } from '../devices/server-names.ts'
import { signedText, thumbprint } from '../devices/signed-text.ts'
import { draftEntry } from '../entry/draft.ts'
import type { Entry } from '../entry/entry.ts'
import type { SecondAccount } from '../ledger/admission.ts'

/** Who keeps second accounts: the server where they arrive, with its key. */
export interface ContestWriter {
  readonly key: DeviceKey
  /** r||s in base64url over the UTF-8 of a text */
  readonly sign: (text: string) => string
  readonly now: () => string
  readonly newId: () => string
}

const AUTHOR = 'Rillmark server'
const MOST_ISSUES = 50

/** What goes into the record: the contest, and before the first one that the server joined with its key. */
export function contestEntries(
  { state, original, issues, against, clockAheadS, nextNumber }: SecondAccount,
  { key, sign, now, newId }: ContestWriter,
): readonly Entry[] {
  const { investigation } = state
  const name = thumbprint(key)
  const device = serverDevice(state.devices, name)
  const instant = { instant: now(), offset: '+00:00' }
  let deviceSequence = nextNumber(device)
  const signed = (what: Parameters<typeof draftEntry>[1]): Entry => {
    const desk = { investigation, author: AUTHOR, device, deviceSequence, now: instant, newId }
    deviceSequence += 1
    const entry = draftEntry(desk, what)
    return { ...entry, signature: { key: name, value: sign(signedText(entry)) } }
  }
  const joined = state.devices.has(device)
    ? []
    : [signed({ kind: 'device.joined', body: { name: AUTHOR, role: 'server', key } })]
  const clock = clockAheadS === undefined ? {} : { clockAheadS }
  const body = { entry: original, issues: issues.slice(0, MOST_ISSUES), against: [...against], ...clock }
  return [...joined, signed({ kind: 'entry.contested', body })]
}
