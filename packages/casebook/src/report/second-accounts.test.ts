import { expect, test } from 'vitest'
import { added, door, investigation, writer } from '../contests/contests.fixture.ts'
import type { Entry } from '../entry/entry.ts'
import { derive } from '../state/derive.ts'
import { reportContext } from './context.ts'
import { secondAccounts } from './second-accounts.ts'

/** What the door takes, one entry after the other. */
function recordOf(...given: readonly Entry[]): Entry[] {
  const admission = door()
  return given.flatMap((entry) => added(admission.decide(entry)))
}

function blocksOf(entries: readonly Entry[], variant: 'full' | 'redacted' = 'full') {
  const state = derive(investigation, entries)
  const head = { sequence: state.record.entries.length, hash: '0'.repeat(64) }
  return secondAccounts(reportContext(state, { head, variant, today: '2026-03-30' }))
}

/** One row a line: cells, and the entries they rest on. */
function rowsOf(blocks: ReturnType<typeof blocksOf>): string[] {
  return blocks
    .flatMap((block) => (block.block === 'table' ? block.rows : []))
    .map(({ cells, entries }) => {
      const texts = cells.map((cell) =>
        typeof cell === 'string' ? cell : [cell.text, cell.sub].filter(Boolean).join('; '),
      )
      return `${texts.join(' | ')} [${entries.join(', ')}]`
    })
}

const [desk, phone] = [writer('desk-1'), writer('phone-1')]
const first = desk.aCase('C1', { seen: 0, notes: 'seen by the desk' })
const second = phone.aCase('C1', { seen: 0 })
const [hot, warm] = [desk.reading(58, { seen: 3 }), phone.reading(51, { seen: 1 })]

test('[RPT16] where nobody told anything twice, nothing stands in the report', () => {
  expect(blocksOf(recordOf(first))).toEqual([])
})

test('[RPT16] a second account stands beside the first, with who told it, and is said to count for nothing until it is settled', () => {
  const [row] = rowsOf(blocksOf(recordOf(first, second)))
  expect(row).toMatch(
    /^Case recorded: Case C1.*\(R\. Vale, desk-1\) \| Case recorded: Case C1.*\(R\. Vale, phone-1\) \| not settled: the second counts for nothing \[/,
  )
})

test('[RPT16] how it was settled, by whom and why, rests on the entries', () => {
  const entries = recordOf(first, second, desk.settled(second.id, 'first stands'))
  const [row] = rowsOf(blocksOf(entries))
  expect(row).toContain('| the first stands; asked both (R. Vale)')
  expect(row?.endsWith(`, ${entries.length}]`)).toBe(true)
})

test('[RPT16] two readings that differ are told, both counting, and then as they were settled', () => {
  const open = [first, hot, warm]
  expect(rowsOf(blocksOf(open))).toEqual([expect.stringContaining('not settled: both count [2, 3]')])
  const settled = desk.make('contest.settled', {
    contested: warm.id,
    against: hot.id,
    decision: 'both stand',
    reason: 'an hour between them',
  })
  expect(rowsOf(blocksOf([...open, { ...settled, seen: 10 }]))).toEqual([
    expect.stringMatching(/58.*\| .*51.*\| both stand; an hour between them \(R\. Vale\) \[2, 3, 4\]$/),
  ])
})

test('[RPT16] the redacted report names kinds and decisions, no person and nothing of a case', () => {
  const entries = recordOf(first, second, desk.settled(second.id, 'second stands'))
  const said = JSON.stringify(blocksOf(entries, 'redacted'))
  expect(said).toContain('the second stands')
  for (const word of ['C1', 'Vale', 'seen by the desk', 'desk-1']) expect(said).not.toContain(word)
})
