import { draftEntry, type Proposal } from '@rillmark/casebook/entry/draft.ts'
import type { BodyOf, Kind } from '@rillmark/casebook/entry/kinds.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { Acceptance } from '@rillmark/casebook/results/accept.ts'
import { checkEntry } from '@rillmark/casebook/rules/check-entry.ts'
import { derive, extend } from '@rillmark/casebook/state/derive.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { Investigation } from '../store/investigation.tsx'

export type Written =
  | { readonly ok: true; readonly count: number }
  | { readonly ok: false; readonly issues: readonly Issue[]; readonly written: number }

type Propose = Investigation['propose']

/**
 * Writes an accepted file: first every entry is tried on a copy of the record, and only when none is objected to is anything written. If
 * the device then fails half-way (a full disk), what was written is said; the same file may be dropped again, and brings only the rest.
 */
export async function writeImport(
  acceptance: Acceptance,
  to: { state: InvestigationState; propose: Propose; onProgress: (fraction: number) => void },
): Promise<Written> {
  const objections = await tried(acceptance, to)
  if (objections.length > 0) return { ok: false, issues: objections, written: 0 }
  const imported = await to.propose('results.imported', acceptance.imported)
  if (!imported.ok) return { ok: false, issues: imported.issues, written: 0 }
  const entries = acceptance.entriesOf(imported.entry.id)
  for (const [index, entry] of entries.entries()) {
    const proposed = await proposeAny(to.propose, entry)
    if (!proposed.ok) return { ok: false, issues: proposed.issues, written: index }
    if (index % PAUSE_EVERY === 0) await breathe(() => to.onProgress(0.5 + index / entries.length / 2))
  }
  return { ok: true, count: entries.length }
}

const PAUSE_EVERY = 25

function proposeAny(propose: Propose, { kind, body, corrects }: Proposal): ReturnType<Propose> {
  return propose(kind as Kind, body as BodyOf<Kind>, corrects === undefined ? {} : { corrects })
}

/** Every entry against a copy of the record, a few at a time so that the screen stays awake. */
async function tried(
  acceptance: Acceptance,
  { state: before, onProgress }: { state: InvestigationState; onProgress: (fraction: number) => void },
): Promise<readonly Issue[]> {
  const { investigation, record } = before
  let state = derive(investigation, record.entries)
  const newId = (): string => crypto.randomUUID()
  const now = { instant: record.entries.at(-1)?.instant ?? '2000-01-01T00:00:00.000Z', offset: '+00:00' }
  const desk = { investigation, author: 'trial', device: 'trial', deviceSequence: 1, now, newId }
  const imported = draftEntry(desk, { kind: 'results.imported', body: acceptance.imported })
  const entries = [imported, ...acceptance.entriesOf(imported.id).map((proposal) => draftEntry(desk, proposal))]
  for (const [index, entry] of entries.entries()) {
    const checked = checkEntry(state, entry)
    if (!checked.ok) return checked.issues
    state = extend(state, [checked.entry])
    if (index % PAUSE_EVERY === 0) await breathe(() => onProgress(index / entries.length / 2))
  }
  return []
}

async function breathe(tell: () => void): Promise<void> {
  tell()
  await new Promise((resolve) => setTimeout(resolve))
}
