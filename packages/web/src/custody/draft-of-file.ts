import type { PartlyRead } from '@rillmark/exchange/custody/read-receipt-csv.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { emptyReceipt, type ReceiptDraft } from '../receipt/receipt-draft.ts'
import { localInstant } from '../store/local-time.ts'

/** What could be read of a laboratory's form, in the form a person completes. Of what could not be read nothing is said. */
export function draftOfFile(read: PartlyRead): ReceiptDraft {
  const { laboratory, receivedBy, sealIntact, sealRead = '', temperatureC, at, samples } = read
  return {
    ...emptyReceipt(laboratory),
    receivedBy,
    seal: sealIntact === undefined ? '' : sealIntact ? 'intact' : 'broken',
    sealRead,
    at: at === undefined ? '' : wallClock(localInstant(Date.parse(at))).replace(' ', 'T'),
    temperature: temperatureC === undefined ? '' : String(temperatureC),
    accepted: samples.filter(({ condition }) => condition === 'accepted').map(({ label }) => label),
    noted: samples
      .filter(({ condition }) => condition !== 'accepted')
      .map(({ label, condition, rejected, notes = '' }) => ({
        label,
        condition,
        examined: rejected === undefined ? '' : rejected ? 'no' : 'yes',
        notes,
      })),
  }
}
