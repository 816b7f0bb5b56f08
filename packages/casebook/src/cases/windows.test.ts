import { expect, test } from 'vitest'
import { threeCases } from '../testing/three-cases.ts'
import { caseWindows } from './windows.ts'

test('[CAS6] until a window is chosen it reaches 14 days back; unknown onsets have none and come last', () => {
  const windows = caseWindows(threeCases)
  expect(windows.map(({ code, window }) => [code, window])).toEqual([
    ['C1', { from: '2026-02-01', to: '2026-02-15' }],
    ['C2', { from: '2026-02-06', to: '2026-02-20' }],
    ['C3', undefined],
  ])
})
