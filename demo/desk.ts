import { draftEntry } from '@rillmark/casebook/entry/draft.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { issueLine } from '@rillmark/science/catalogue/issue.ts'
import type { BodyOf, Kind } from '@rillmark/casebook/entry/kinds.ts'
import { checkEntry } from '@rillmark/casebook/rules/check-entry.ts'
import { derive, extend } from '@rillmark/casebook/state/derive.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'

/** Who writes, on which device, and when by the clock on the wall of Quillhaven. */
export interface Hand {
  readonly author: string
  readonly device: string
}

export const VALE: Hand = { author: 'R. Vale', device: 'demo-desk' }
export const OKORO: Hand = { author: 'T. Okoro', device: 'demo-phone' }
export const BRANDT: Hand = { author: 'J. Brandt', device: 'demo-courier' }

/** Summer time begins in Quillhaven on this day. */
const SUMMER_TIME_FROM = '2026-03-29'

/**
 * Writes the example's entries one after another, each checked by the rules of the casebook before the next: an example that breaks a rule
 * does not build. Ids follow from a counter, so the example is the same every time.
 */
export class DemoDesk {
  readonly investigation: string
  readonly entries: Entry[] = []
  state: InvestigationState
  readonly #sequences = new Map<string, number>()

  constructor(investigation: string) {
    this.investigation = investigation
    this.state = derive(investigation, [])
  }

  /**
   * @param at local time on the wall, e.g. `2026-03-04T09:10`, optionally with seconds
   * @throws Error when a rule objects, with every objection
   */
  write<K extends Kind>(
    kind: K,
    body: BodyOf<K>,
    { at, by = VALE, corrects }: { at: string; by?: Hand; corrects?: { entry: string; reason: string } },
  ): Entry {
    const deviceSequence = (this.#sequences.get(by.device) ?? 0) + 1
    const entry = draftEntry(
      {
        investigation: this.investigation,
        author: by.author,
        device: by.device,
        deviceSequence,
        now: wallTime(at),
        newId: () => demoId(this.entries.length + 1),
      },
      corrects === undefined ? { kind, body } : { kind, body, corrects },
    )
    const checked = checkEntry(this.state, entry)
    if (!checked.ok)
      throw new Error(`The example breaks a rule at ${kind} (${at}): ${checked.issues.map(issueLine).join('; ')}`)
    this.#sequences.set(by.device, deviceSequence)
    this.entries.push(checked.entry)
    this.state = extend(this.state, [checked.entry])
    return checked.entry
  }
}

/** A wall-clock time as UTC instant and the offset in force. */
export function wallTime(at: string): { instant: string; offset: string } {
  const offset = at.slice(0, 10) >= SUMMER_TIME_FROM ? '+01:00' : '+00:00'
  const withSeconds = at.length === 16 ? `${at}:00` : at
  return { instant: new Date(`${withSeconds}${offset}`).toISOString(), offset }
}

/** A time some minutes after another, on the same wall clock. */
export function later(at: string, minutes: number): string {
  const { instant, offset } = wallTime(at)
  const shift = Number(offset.slice(1, 3)) * 3_600_000
  return new Date(Date.parse(instant) + shift + minutes * 60_000).toISOString().slice(0, 19)
}

/** A UUID of the application-defined version (RFC 9562, version 8) that counts. */
function demoId(count: number): string {
  return `00000000-0000-8000-8000-${count.toString(16).padStart(12, '0')}`
}
