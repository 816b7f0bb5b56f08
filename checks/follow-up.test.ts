// The follow-up calendar against an outside reckoning, and its iCalendar file against the published format.
import { findCriteriaSet } from '@rillmark/casebook/criteria/criteria-sets.ts'
import { followUpSchedule } from '@rillmark/science/follow-up/schedule.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { roundWriter } from '@rillmark/casebook/follow-up/follow-up.fixture.ts'
import { followUpCalendar } from '@rillmark/exchange/follow-up/calendar.ts'
import { describe, expect, test } from 'vitest'

const DAY_MS = 86_400_000
const write = roundWriter()

describe('every 2 weeks for 3 months, then monthly for 3 months', () => {
  // The rule: US CDC outbreak guidance and CDC/HICPAC 2003 (memory). The calendar, 6 to 7 rounds and 3 more over six months: computed from it.
  const rule = findCriteriaSet('us-cdc')?.followUp?.rule
  const starts = Array.from({ length: 366 }, (_, day) => new Date(Date.UTC(2026, 0, 1) + day * DAY_MS))

  test.each(starts.filter((_, index) => index % 7 === 0).map((start) => start.toISOString().slice(0, 10)))(
    'remediated on %s: 6 or 7 rounds, then 3, within about six months',
    (remediationCompletedOn) => {
      if (rule === undefined) throw new TypeError('the set has no follow-up rule')
      const { rounds } = followUpSchedule({ rule, remediationCompletedOn })
      const first = rounds.filter(({ phase }) => phase === 1)
      expect(first.length).toBeGreaterThanOrEqual(6)
      expect(first.length).toBeLessThanOrEqual(7)
      expect(rounds.length - first.length).toBe(3)
      expect(gaps([remediationCompletedOn, ...first.map(({ dueOn }) => dueOn)])).toEqual(first.map(() => 14))
      const last = rounds.at(-1)?.dueOn ?? ''
      expect(days(remediationCompletedOn, last)).toBeGreaterThanOrEqual(181 - 3)
      expect(days(remediationCompletedOn, last)).toBeLessThanOrEqual(184)
    },
  )
})

describe('the iCalendar file', () => {
  const long =
    'Marram House, Quillhaven; west wing — “the old laundry”, rooms 101–140\\ and the café on the first floor'
  const opened = write.on('2026-01-02')('investigation.opened', {
    title: long,
    setting: 'hotel',
    openedOn: '2026-01-02',
    reason: 'two cases',
  })
  const entries = [
    opened,
    write.started('2026-01-31'),
    ...write.round('2026-02-14', { code: 'R2', value: { kind: 'not-detected', volumeMl: 1000 } }),
    ...write.round('2026-02-28', { code: 'R3', value: { kind: 'detected' } }),
  ]
  const text = fileOf(entries)

  // RFC 5545 (IETF, 2009), section 3.1: lines end in CRLF and should be no longer than 75 octets; longer ones are folded before a space (memory)
  test('ends every line in CRLF, none longer than 75 octets, and never cuts a character', () => {
    expect(text.endsWith('\r\n')).toBe(true)
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    const lines = text.split('\r\n')
    expect(lines.filter((line) => Buffer.byteLength(line) > 75)).toEqual([])
    expect(lines.some((line) => line.startsWith(' '))).toBe(true)
    expect(text).not.toContain('\ufffd')
  })

  // RFC 5545, sections 3.6 and 3.6.1: VERSION and PRODID once; each event has UID and DTSTAMP; a date-only event has DTEND after DTSTART (memory)
  test('has what the format asks for', () => {
    const [calendar, ...events] = blocksOf(text)
    expect(calendar).toMatchObject({ VERSION: '2.0', PRODID: '-//Rillmark//follow-up//EN' })
    expect(events.length).toBe(9)
    for (const event of events) {
      expect(event['DTSTAMP']).toMatch(/^\d{8}T\d{6}Z$/)
      expect(event['UID']).toMatch(/^[0-9a-f-]{36}-round-\d+@rillmark$/)
      expect(Number(event['DTEND;VALUE=DATE'])).toBeGreaterThan(Number(event['DTSTART;VALUE=DATE']))
    }
    expect(new Set(events.map((event) => event['UID'])).size).toBe(events.length)
  })

  // RFC 5545, section 3.3.11: comma, semicolon, backslash and line break are escaped in text (memory)
  test('gives back the words it was given', () => {
    const summary = blocksOf(text)[1]?.['SUMMARY'] ?? ''
    expect(unescaped(summary)).toBe(`${long}: follow-up round 1 due`)
  })

  test('the restart by a positive moves the rounds and says why; their names stay', () => {
    const before = blocksOf(fileOf(entries.slice(0, -3)))
    const after = blocksOf(text)
    expect(before[1]?.['UID']).toBe(after[1]?.['UID'])
    expect(before[1]?.['DTSTART;VALUE=DATE']).toBe('20260214')
    expect(after[1]?.['DTSTART;VALUE=DATE']).toBe('20260314')
    expect(Number(after[1]?.['SEQUENCE'])).toBeGreaterThan(Number(before[1]?.['SEQUENCE']))
    expect(after[1]?.['DESCRIPTION']).toContain('The clock restarted: positive in the sampling of 2026-02-28')
  })

  test('the same record gives the same bytes', () => {
    expect(fileOf(entries)).toBe(text)
  })
})

function fileOf(entries: Parameters<typeof derive>[1]): string {
  const made = followUpCalendar(derive('marram-house', entries))
  if (typeof made !== 'string') throw new TypeError(JSON.stringify(made.issues))
  return made
}

/** A plain reader of the format: unfolds, then gives the properties of the calendar and of each event. */
function blocksOf(text: string): Record<string, string>[] {
  const lines = text.replaceAll('\r\n ', '').split('\r\n')
  const blocks: Record<string, string>[] = [{}]
  for (const line of lines) {
    if (line === 'BEGIN:VEVENT') blocks.push({})
    const at = line.indexOf(':')
    const block = blocks.at(-1)
    if (at > 0 && block !== undefined) block[line.slice(0, at)] = line.slice(at + 1)
  }
  return blocks
}

const unescaped = (text: string): string =>
  text.replace(/\\([\\;,nN])/g, (_, mark: string) => (mark.toLowerCase() === 'n' ? '\n' : mark))

const days = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / DAY_MS
const gaps = (dates: readonly string[]): number[] => dates.slice(1).map((date, index) => days(dates[index] ?? '', date))
