import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { Rule } from '../rules/rule.ts'
import type { LoggerSeries } from './kinds.ts'

/** A temperature entry says one reading or carries a logger's series, which runs forward in time and has come. */
export const seriesIsSound: Rule<'temperature.logged'> = ({ body: { temperatureC, series }, instant }) => {
  if (series === undefined)
    return temperatureC === undefined
      ? [issue('body.temperatureC', { expected: 'a temperature, or the series of a logger', received: undefined })]
      : []
  const issues: Issue[] = temperatureC === undefined ? [] : [one(temperatureC)]
  return [...issues, ...inStep(series), ...hasCome(series, instant)]
}

const one = (received: number): Issue =>
  issue('body.temperatureC', { expected: 'nothing beside the series of a logger', received })

function inStep({ seconds, temperatureC, piece }: LoggerSeries): Issue[] {
  const issues: Issue[] = []
  if (seconds.length !== temperatureC.length)
    issues.push(
      issue('body.series.temperatureC', { expected: `${seconds.length} readings`, received: temperatureC.length }),
    )
  const back = seconds.findIndex((each, at) => at > 0 && each <= (seconds[at - 1] ?? 0))
  if (back >= 0)
    issues.push(
      issue(`body.series.seconds.${back}`, { expected: 'later than the reading before', received: seconds[back] }),
    )
  if (piece !== undefined && piece.number > piece.of)
    issues.push(issue('body.series.piece.number', { expected: `at most ${piece.of}`, received: piece.number }))
  return issues
}

function hasCome({ startedAt, seconds }: LoggerSeries, instant: string): Issue[] {
  const last = new Date(Date.parse(startedAt) + Math.max(0, ...seconds) * 1000).toISOString()
  return last <= instant
    ? []
    : [issue('body.series.startedAt', { expected: 'readings up to a moment that has come', received: last })]
}
