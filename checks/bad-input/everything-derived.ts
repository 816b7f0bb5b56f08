import { briefView } from '@rillmark/casebook/brief/brief-view.ts'
import { emptyHead, headAfter, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { controlView } from '@rillmark/casebook/control/control-view.ts'
import { custodyView } from '@rillmark/casebook/custody/custody-view.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { sampleRows } from '@rillmark/casebook/findings/sample-rows.ts'
import { followUpView } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import { bodyFacts } from '@rillmark/casebook/record/body-facts.ts'
import { listEntries } from '@rillmark/casebook/record/entry-list.ts'
import { entryWords } from '@rillmark/casebook/record/entry-words.ts'
import { reportModel } from '@rillmark/casebook/report/report-model.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { submissionOf } from '@rillmark/exchange/custody/submission.ts'
import { followUpCalendar } from '@rillmark/exchange/follow-up/calendar.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { roundPapers } from '@rillmark/exchange/plan/round-documents.ts'
import type { DocumentHand } from '@rillmark/server/documents/document-kind.ts'
import { diagramDocument } from '@rillmark/server/documents/diagram.ts'
import { summaryOf } from '@rillmark/server/records/summary.ts'

const TODAY = '2026-05-12'
const NOW_MS = Date.parse(`${TODAY}T12:00:00.000Z`)

/** Nothing made here is signed. */
const NO_HAND: DocumentHand = {
  key: () => {
    throw new RangeError('Cannot sign because there is no key here')
  },
  now: () => new Date(NOW_MS).toISOString(),
}

/** Makes everything that screens, lists, documents and packages are made from; whatever throws makes the record unusable. */
export async function everythingDerived(investigation: string, entries: readonly Entry[]): Promise<void> {
  const links = linkEntries(emptyHead(investigation), { entries, received: '2026-05-12T12:00:00.000Z' })
  const head = headAfter(emptyHead(investigation), links)
  const state = derive(investigation, entries)
  summaryOf(state, head)
  briefView(state, { nowMs: NOW_MS, today: TODAY })
  controlView(state, TODAY)
  custodyView(state, NOW_MS)
  followUpView(state, TODAY)
  sampleRows(state)
  listEntries(state)
  const last = entries.at(-1)
  if (last !== undefined) entryWords(last)
  bodyFacts(last?.body)
  for (const variant of ['full', 'redacted'] as const) reportModel(state, { head, variant, today: TODAY })
  submissionOf(state, {})
  roundPapers(state, {})
  followUpCalendar(state)
  const attachment = async () => undefined
  await diagramDocument.make({ investigation, state, links, head, query: {}, attachment, hand: NO_HAND })
  writePackage(links, { attachments: new Map() })
}
