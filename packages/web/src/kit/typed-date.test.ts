import { describe, expect, it } from 'vitest'
import { tidyTypedDate, tidyTypedTime, typedDateIssue, typedTimeIssue } from './typed-date.ts'

describe('a date as typed', () => {
  it.each([
    ['20260314', '2026-03-14'],
    ['2026-3-4', '2026-03-04'],
    ['2026.03.14', '2026-03-14'],
    [' 2026-03-14 ', '2026-03-14'],
    ['14/03/2026', '14/03/2026'],
  ])('completes %s to %s', (typed, tidy) => expect(tidyTypedDate(typed)).toBe(tidy))

  it.each(['14/03/2026', '2026-02-29', '2026-13-01', '2026-00-10', 'soon'])('says what is wrong with %s', (typed) => {
    expect(typedDateIssue(typed)).toBeTypeOf('string')
  })

  it.each(['', '2024-02-29', '2026-12-31'])('accepts %j', (typed) => expect(typedDateIssue(typed)).toBeUndefined())
})

describe('a time of day as typed', () => {
  it.each([
    ['940', '09:40'],
    ['0940', '09:40'],
    ['9.40', '09:40'],
    ['23:59', '23:59'],
  ])('completes %s to %s', (typed, tidy) => expect(tidyTypedTime(typed)).toBe(tidy))

  it.each(['24:00', '9', '12:60', 'noon'])('says what is wrong with %s', (typed) =>
    expect(typedTimeIssue(typed)).toBeTypeOf('string'),
  )
})
