import { existsSync, readFileSync } from 'node:fs'
import * as z from 'zod'
import type { Count } from './command.ts'

const VitestReport = z.object({
  testResults: z.array(
    z.object({
      name: z.string(),
      status: z.string(),
      assertionResults: z.array(z.object({ status: z.string(), fullName: z.string() })),
    }),
  ),
})

const PlaywrightReport = z.object({
  stats: z.object({ expected: z.number(), unexpected: z.number(), flaky: z.number(), skipped: z.number() }),
  errors: z.array(z.unknown()),
})

/** What a run left behind: its JSON report (if it came to write one) and its exit code. */
export type Run = { readonly reportPath: string; readonly exitCode: number }

/** Counts a vitest run: a file that did not load counts as one failure, a test that did not run as well. */
export function countVitest(run: Run): Count {
  const report = readReport(run.reportPath, VitestReport)
  if (report === undefined) return { passed: 0, failed: 1 }
  const tests = report.testResults.flatMap((file) => file.assertionResults.map((each) => each.status))
  const passed = tests.filter((status) => status === 'passed').length
  const unloaded = report.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0)
  return honest({ passed, failed: tests.length - passed + unloaded.length }, run.exitCode)
}

/** Counts a Playwright run: a test that was skipped or passed only on a second try did not pass. */
export function countPlaywright(run: Run): Count {
  const report = readReport(run.reportPath, PlaywrightReport)
  if (report === undefined) return { passed: 0, failed: 1 }
  const { expected, unexpected, flaky, skipped } = report.stats
  return honest({ passed: expected, failed: unexpected + flaky + skipped }, run.exitCode)
}

/** A run that ended badly without a failed test (an error outside any test, nothing found to run) still failed. */
function honest(count: Count, exitCode: number): Count {
  const nothing = count.passed + count.failed === 0
  return count.failed === 0 && (exitCode !== 0 || nothing) ? { ...count, failed: 1 } : count
}

function readReport<Shape extends z.ZodType>(path: string, shape: Shape): z.infer<Shape> | undefined {
  if (!existsSync(path)) return undefined
  try {
    return shape.safeParse(JSON.parse(readFileSync(path, 'utf8'))).data
  } catch {
    return undefined
  }
}
