import { given } from '@rillmark/casebook/entry/given.ts'
import type { Arrival } from '@rillmark/casebook/custody/kinds.ts'
import type { ReceiptBody } from '@rillmark/casebook/custody/receipt-form.ts'
import { type Issue, issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { readTypedQuantity } from '../form/typed-quantity.ts'
import { instantIn, numberIn, textIn } from '../store/typed-values.ts'

/** A sample that was not simply accepted, as it stands in the form. */
export interface NotedArrival {
  readonly label: string
  readonly condition: Arrival['condition'] | ''
  readonly examined: 'yes' | 'no' | ''
  readonly notes: string
}

/** What was said of the samples so far; of those in neither list, nothing. */
export interface SaidArrivals {
  /** said to be here and as they should be */
  readonly accepted: readonly string[]
  readonly noted: readonly NotedArrival[]
}

/** A receipt while it is being filled in. */
export interface ReceiptDraft extends SaidArrivals {
  readonly laboratory: string
  readonly receivedBy: { readonly name: string; readonly role: string }
  readonly seal: 'intact' | 'broken' | ''
  readonly sealRead: string
  readonly at: string
  readonly temperature: string
}

export const emptyReceipt = (laboratory = ''): ReceiptDraft => ({
  laboratory,
  receivedBy: { name: '', role: 'laboratory reception' },
  seal: '',
  sealRead: '',
  at: '',
  temperature: '',
  accepted: [],
  noted: [],
})

/** The receipt a draft stands for, or everything it still lacks. A sample of which nothing was said is not taken for accepted. */
export function receiptOf(
  draft: ReceiptDraft,
  labels: readonly string[],
): { ok: true; receipt: ReceiptBody } | { ok: false; issues: readonly Issue[] } {
  const issues = [...issuesOf(draft), ...unsaid(draft, labels)]
  if (issues.length > 0) return { ok: false, issues }
  const noted = new Map(draft.noted.map((one) => [one.label, one]))
  const samples = labels.map((label): Arrival => {
    const one = noted.get(label)
    if (one === undefined || one.condition === '') return { label, condition: 'accepted' }
    return { label, condition: one.condition, rejected: one.examined === 'no', ...given({ notes: textIn(one.notes) }) }
  })
  const more = given({
    sealRead: textIn(draft.sealRead),
    temperatureC: numberIn(draft.temperature),
    at: instantIn(draft.at),
  })
  const { laboratory, receivedBy } = draft
  return {
    ok: true,
    receipt: {
      laboratory: laboratory.trim(),
      receivedBy: { name: receivedBy.name.trim(), role: receivedBy.role.trim() },
      sealIntact: draft.seal === 'intact',
      ...more,
      samples,
    },
  }
}

function issuesOf({ laboratory, receivedBy, seal, at, temperature, noted }: ReceiptDraft): Issue[] {
  const needed = (path: string, text: string): Issue[] =>
    text.trim() === '' ? [issue(path, { expected: 'an answer', received: undefined })] : []
  return [
    ...needed('laboratory', laboratory),
    ...needed('received by, name', receivedBy.name),
    ...needed('received by, role', receivedBy.role),
    ...(seal === '' ? [issue('seal', { expected: 'whether the seal was whole', received: undefined })] : []),
    ...(at !== '' && instantIn(at) === undefined
      ? [issue('when', { expected: 'a date and a time of day', received: at.replace('T', ' ') })]
      : []),
    ...(readTypedQuantity(temperature).kind === 'unreadable'
      ? [issue('temperature', { expected: 'a temperature', received: temperature })]
      : []),
    ...noted
      .filter(({ condition }) => condition === '')
      .map(({ label }) => issue(label, { expected: 'in what condition it came', received: undefined })),
    ...noted
      .filter(({ examined }) => examined === '')
      .map(({ label }) => issue(label, { expected: 'whether it is examined all the same', received: undefined })),
  ]
}

function unsaid({ accepted, noted }: SaidArrivals, labels: readonly string[]): Issue[] {
  const said = new Set([...accepted, ...noted.map(({ label }) => label)])
  const open = labels.filter((label) => !said.has(label))
  if (open.length === 0) return []
  const expected = 'of each that it is here and as it should be, or what is wrong with it'
  return [statedIssue('samples', { expected, received: `nothing of ${open.join(', ')}` })]
}

/** How a seal number that was read compares with the record: told only once something was read, so that nobody copies it. */
export function sealCompared(
  read: string,
  recorded: string,
): { readonly same: boolean; readonly words: string } | undefined {
  const plain = (text: string): string => text.replace(/[\s-]/g, '').toLowerCase()
  if (plain(read) === '') return undefined
  return plain(read) === plain(recorded)
    ? { same: true, words: 'As the record has it.' }
    : { same: false, words: `The record says ${recorded}. Read the seal again; what you read is what is kept.` }
}
