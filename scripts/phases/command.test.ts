import { expect, test } from 'vitest'
import { countCommand, runCommand } from './command.ts'

const node = (script: string) => ({ run: process.execPath, args: ['-e', script] })

test('the exit code comes back as it is; a command that is not there is 127', async () => {
  expect(await runCommand(node('process.exit(3)'))).toBe(3)
  expect(await runCommand({ run: 'no-such-command-here', args: [] })).toBe(127)
})

test('a command ended by a signal did not pass', async () => {
  expect(await countCommand(node("process.kill(process.pid, 'SIGKILL')"))).toEqual({ passed: 0, failed: 1 })
})

test('a phase of one command counts as one', async () => {
  expect(await countCommand(node(''))).toEqual({ passed: 1, failed: 0 })
  expect(await countCommand(node('process.exit(1)'))).toEqual({ passed: 0, failed: 1 })
})

test('commands find the pinned runtime whatever the search path was', async () => {
  const script =
    'process.exit(process.env.PATH.split(require("node:path").delimiter)[0].endsWith("node_modules/.bin") ? 0 : 1)'
  expect(await runCommand(node(script))).toBe(0)
})
