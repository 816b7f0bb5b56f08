// The one test command: every phase runs even when an earlier one failed; the last line is the sum.
import { type Count, countCommand } from './phases/command.ts'
import { runBrowser, runFaults, runVitest } from './phases/test-runs.ts'

type Phase = { readonly name: string; readonly run: () => Promise<Count> }

const PHASES: readonly Phase[] = [
  { name: 'format', run: () => countCommand({ run: 'biome', args: ['format', '.'] }) },
  { name: 'lint', run: () => countCommand({ run: 'oxlint', args: ['--type-aware'] }) },
  { name: 'types', run: () => countCommand({ run: 'tsc', args: ['--noEmit'] }) },
  { name: 'unit tests, checks and house rules', run: runVitest },
  { name: 'web build', run: () => countCommand({ run: 'npm', args: ['run', 'build', '--silent'] }) },
  { name: 'browser', run: runBrowser },
  { name: 'faults', run: runFaults },
]

const total = { passed: 0, failed: 0 }
for (const { name, run } of PHASES) {
  process.stdout.write(`\n— ${name} —\n`)
  const count = await run()
  process.stdout.write(`— ${name}: ${count.passed} passed, ${count.failed} failed —\n`)
  total.passed += count.passed
  total.failed += count.failed
}
process.exitCode = total.failed === 0 ? 0 : 1
process.stdout.write(`\n${total.passed} passed, ${total.failed} failed\n`)
