import { expect, test } from 'vitest'
import { walkDevices } from './check-devices.ts'
import { linked, writer } from './verify.fixture.ts'

const investigation = 'marram-house'
const note = (text: string) => ({ text, purpose: 'note' }) as const

/** A phone writes its join and three notes; of the second a contest holds it, or nothing does. */
function record(second: 'contested' | 'gone') {
  const [server, phone] = [writer(investigation, 'server'), writer(investigation, 'phone-1')]
  const joins = [server.join('server'), phone.join('sampler')]
  const [one, two, three] = ['one', 'two', 'three'].map((text) => phone.write('note.written', note(text)))
  if (one === undefined || two === undefined || three === undefined) throw new TypeError('Cannot go on without notes')
  const against = { path: 'body.text', expected: 'another', received: 'two' }
  const contest = server.write('entry.contested', { entry: two, issues: [against], against: [one.id] })
  return linked([...joins, one, ...(second === 'contested' ? [contest] : []), three])
}

test('[PKG11] a number of a device that only a contest holds is there; one that nothing holds is missing, and said so', () => {
  expect(walkDevices(record('contested'), investigation).cautions).toEqual([])
  expect(walkDevices(record('gone'), investigation).cautions).toEqual([
    expect.stringContaining('Device numbers are missing: phone-1 before its 4 (entry 4)'),
  ])
})
