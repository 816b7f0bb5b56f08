import { expect, test } from 'vitest'
import type { CommandIo } from './command.ts'
import { progressLine } from './progress-line.ts'

function watching(watched: boolean) {
  const written: string[] = []
  const io: CommandIo = {
    stdin: async () => '',
    out: () => undefined,
    err: (text) => void written.push(text),
    cwd: '/',
    watched,
  }
  let clockMs = 0
  const line = progressLine(io, () => clockMs)
  return { written, line, at: (ms: number) => (clockMs = ms) }
}

test('a watched terminal is told four times a second at most, and the line is wiped at the end', () => {
  const { written, line, at } = watching(true)
  line.progress?.(0.1)
  at(300)
  line.progress?.(0.256)
  line.progress?.(0.3)
  at(600)
  line.progress?.(0.5)
  line.done()
  expect(written).toEqual(['\r25 % done, Ctrl-C to stop', '\r50 % done, Ctrl-C to stop', '\r\u001b[K'])
})

test('short work writes nothing, nor does any where nobody watches', () => {
  const short = watching(true)
  short.line.progress?.(0.5)
  short.line.done()
  const file = watching(false)
  file.at(1000)
  file.line.progress?.(0.5)
  file.line.done()
  expect([...short.written, ...file.written]).toEqual([])
})
