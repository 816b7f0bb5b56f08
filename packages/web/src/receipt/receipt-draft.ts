import { given } from '@rillmark/casebook/entry/given.ts'
import type { Arrival } from '@rillmark/casebook/custody/kinds.ts'
import type { ReceiptBody } from '@rillmark/casebook/custody/receipt-form.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { readTypedQuantity } from '../form/typed-quantity.ts'
import { instantIn, numberIn, textIn } from '../store/typed-values.ts'

/** A sample that was not simply accepted, as it stands in the form. */
export interface NotedArrival {
  readonly label: string
  readonly condition: Arrival['condition']
  readonly examined: 'yes' | 'no' | ''
  readonly notes: string
}

/** A receipt while it is being filled in. */
export interface ReceiptDraft {
  readonly laboratory: string
  readonly receivedBy: { readonly name: string; readonly role: string }
  readonly seal: 'intact' | 'broken' | ''
  readonly sealRead: string
  readonly at: string
  readonly temperature: string
  readonly noted: readonly NotedArrival[]
}

export const emptyReceipt = (laboratory = ''): ReceiptDraft => ({
  laboratory,
  receivedBy: { name: '', role: 'laboratory reception' },
  seal: '',
  sealRead: '',
  at: '',
  temperature: '',
  noted: [],
})

/** The receipt a draft stands for, or everything it still lacks. Every sample not noted was accepted as it came. */
export function receiptOf(
  draft: ReceiptDraft,
  labels: readonly string[],
): { ok: true; receipt: ReceiptBody } | { ok: false; issues: readonly Issue[] } {
  const issues = issuesOf(draft)
  if (issues.length > 0) return { ok: false, issues }
  const noted = new Map(draft.noted.map((one) => [one.label, one]))
  const samples = labels.map((label): Arrival => {
    const one = noted.get(label)
    if (one === undefined) return { label, condition: 'accepted' }
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
      .filter(({ examined }) => examined === '')
      .map(({ label }) => issue(label, { expected: 'whether it is examined all the same', received: undefined })),
  ]
}
