import { expect, test } from 'vitest'
import { emptyReceipt, type ReceiptDraft, receiptOf } from './receipt-draft.ts'

const FILLED: ReceiptDraft = {
  ...emptyReceipt('Quillhaven Water Laboratory'),
  receivedBy: { name: ' M. Aydin ', role: 'reception' },
  seal: 'intact',
  temperature: '6,1',
  noted: [{ label: 'L2', condition: 'too warm', examined: 'no', notes: ' ' }],
}

test('every sample not noted was accepted; a noted one says whether it is examined', () => {
  expect(receiptOf(FILLED, ['L1', 'L2'])).toEqual({
    ok: true,
    receipt: {
      laboratory: 'Quillhaven Water Laboratory',
      receivedBy: { name: 'M. Aydin', role: 'reception' },
      sealIntact: true,
      temperatureC: 6.1,
      samples: [
        { label: 'L1', condition: 'accepted' },
        { label: 'L2', condition: 'too warm', rejected: true },
      ],
    },
  })
})

test('all that is missing is told at once', () => {
  const noted = [{ label: 'L2', condition: 'frozen', examined: '', notes: '' }] as const
  const read = receiptOf({ ...emptyReceipt(), at: '2026-03-14T', temperature: 'cool', noted }, ['L1', 'L2'])
  expect(read).toMatchObject({
    ok: false,
    issues: ['laboratory', 'received by, name', 'seal', 'when', 'temperature', 'L2'].map((path) => ({ path })),
  })
})
