import { expect, test } from 'vitest'
import { emptyReceipt, type ReceiptDraft, receiptOf, sealCompared } from './receipt-draft.ts'

const FILLED: ReceiptDraft = {
  ...emptyReceipt('Quillhaven Water Laboratory'),
  receivedBy: { name: ' M. Aydin ', role: 'reception' },
  seal: 'intact',
  temperature: '6,1',
  accepted: ['L1'],
  noted: [{ label: 'L2', condition: 'too warm', examined: 'no', notes: ' ' }],
}

test('[RCP1] a sample said to be as it should be was accepted; a noted one says whether it is examined', () => {
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
  const noted = [{ label: 'L2', condition: '', examined: '', notes: '' }] as const
  const read = receiptOf({ ...emptyReceipt(), at: '2026-03-14T', temperature: 'cool', noted }, ['L1', 'L2'])
  expect(read).toMatchObject({
    ok: false,
    issues: ['laboratory', 'received by, name', 'seal', 'when', 'temperature', 'L2', 'L2', 'samples'].map((path) => ({
      path,
    })),
  })
})

test('[RCP1] a sample of which nothing was said is not accepted: the receipt waits for it and names it', () => {
  expect(receiptOf({ ...FILLED, accepted: [], noted: [] }, ['L1', 'L2'])).toMatchObject({
    ok: false,
    issues: [{ path: 'samples', received: expect.stringContaining('L1, L2') }],
  })
  expect(receiptOf(FILLED, ['L1', 'L2', 'L3'])).toMatchObject({ ok: false, issues: [{ path: 'samples' }] })
})

test.each([
  ['', undefined],
  ['  ', undefined],
  ['s-4711', true],
  ['S 4711', true],
  ['S-4717', false],
])('[RCP2] the recorded seal number is told only after one was read: %j', (read, same) => {
  expect(sealCompared(read, 'S-4711')?.same).toBe(same)
})
