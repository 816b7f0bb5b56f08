import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { countPlaywright, countVitest } from './json-report.ts'

const folder = mkdtempSync(join(tmpdir(), 'rillmark-counts-'))
afterAll(() => rmSync(folder, { recursive: true }))

function report(content: unknown): string {
  const path = join(folder, 'report.json')
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content))
  return path
}
const file = (status: string, tests: readonly string[]) => ({
  name: 'a.test.ts',
  status,
  assertionResults: tests.map((each) => ({ status: each, fullName: 'x' })),
})
const vitest = (files: readonly object[], exitCode: number) =>
  countVitest({ reportPath: report({ testResults: files }), exitCode })
const browser = (stats: Record<string, number>, exitCode: number) =>
  countPlaywright({
    reportPath: report({ stats: { expected: 0, unexpected: 0, flaky: 0, skipped: 0, ...stats }, errors: [] }),
    exitCode,
  })

test('passed and failed tests are counted', () => {
  expect(vitest([file('failed', ['passed', 'failed', 'passed'])], 1)).toEqual({ passed: 2, failed: 1 })
  expect(browser({ expected: 3, unexpected: 2 }, 1)).toEqual({ passed: 3, failed: 2 })
})

test('what did not run counts as failed', () => {
  expect(vitest([file('passed', ['passed', 'pending', 'skipped', 'todo'])], 0)).toEqual({ passed: 1, failed: 3 })
  expect(browser({ expected: 1, skipped: 2, flaky: 1 }, 0)).toEqual({ passed: 1, failed: 3 })
})

test('a file that did not load is one failure', () => {
  expect(vitest([file('failed', []), file('passed', ['passed'])], 1)).toEqual({ passed: 1, failed: 1 })
})

test('a bad exit without a failed test is one failure', () => {
  expect(vitest([file('passed', ['passed'])], 1)).toEqual({ passed: 1, failed: 1 })
  expect(browser({ expected: 1 }, 1)).toEqual({ passed: 1, failed: 1 })
})

test('nothing run, no report or an unreadable one is one failure', () => {
  expect(vitest([], 0)).toEqual({ passed: 0, failed: 1 })
  expect(browser({}, 0)).toEqual({ passed: 0, failed: 1 })
  expect(countVitest({ reportPath: join(folder, 'absent.json'), exitCode: 0 })).toEqual({ passed: 0, failed: 1 })
  expect(countPlaywright({ reportPath: report('{'), exitCode: 0 })).toEqual({ passed: 0, failed: 1 })
})
