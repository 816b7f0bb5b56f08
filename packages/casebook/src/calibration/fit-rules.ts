import { issue } from '@rillmark/science/catalogue/issue.ts'
import { canonicalJson } from '../chain/canonical.ts'
import { systemEntryOf } from '../conditions/system-entry.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import { everyInput } from './inputs.ts'
import { reasonOfId } from './reasons.ts'

/** Values are taken over for the building as it stands: a fit made before an edit arrived is made again. */
const namesPresentSystem: Rule<'fit.accepted'> = ({ body }, { state, amends }) => {
  if (amends !== undefined) return []
  const present = systemEntryOf(state.record)
  if (present !== undefined && body.system === present) return []
  const expected =
    present === undefined ? 'a described building' : `${present}, the entry that last shaped the building`
  return [issue('body.system', { expected, received: body.system })]
}

const roundWasRead: Rule<'fit.accepted'> = ({ body }, { state }) =>
  state.fieldwork.readings.some((reading) => reading.body.round === body.round)
    ? []
    : [issue('body.round', { expected: 'a round with readings', received: body.round })]

/** An input or a reason the building does not have would stand in the record and change nothing. */
const namesKnownInputs: Rule<'fit.accepted'> = ({ body }, { state, amends }) => {
  const { system } = state.building
  if (amends !== undefined || system === undefined) return []
  const known = new Set(everyInput(system).map(({ id }) => id))
  const seen = new Set<string>()
  return [
    ...body.inputs.flatMap(({ id }, at) => {
      if (known.has(id) && !seen.has(id)) {
        seen.add(id)
        return []
      }
      return [issue(`body.inputs.${at}.id`, { expected: 'an uncertain input of this building, once', received: id })]
    }),
    ...body.found
      .map(({ id, kind }, at) => ({ id, kind, at }))
      .filter(({ id, kind }) => reasonOfId(system, id)?.kind !== kind)
      .map(({ id, kind, at }) =>
        issue(`body.found.${at}.id`, { expected: `a ${kind} there can be in this building`, received: id }),
      ),
  ]
}

const valuesAreWithinRanges: Rule<'fit.accepted'> = ({ body }) => {
  const ranged = [
    ...body.inputs.flatMap(({ believed, fitted }, at) => [
      { path: `body.inputs.${at}.believed`, ...believed },
      { path: `body.inputs.${at}.fitted`, ...fitted },
    ]),
    ...body.found.flatMap(({ size }, at) => (size === undefined ? [] : [{ path: `body.found.${at}.size`, ...size }])),
  ]
  return ranged
    .filter(({ value, range }) => !(range.lower <= value && value <= range.upper))
    .map(({ path, value, range }) =>
      issue(path, { expected: 'a value within its range', received: `${value} in ${range.lower} to ${range.upper}` }),
    )
}

/** Values that were fitted can't be set right by hand: that is another fit. A note may be. */
const figuresStand: Rule<'fit.accepted'> = ({ body }, { state, amends }) => {
  const before = state.building.fits.find(({ id }) => id === amends)?.body
  if (before === undefined) return []
  const figures = ({ note: _note, ...rest }: typeof body): string => canonicalJson(rest)
  return figures(before) === figures(body)
    ? []
    : [issue('body', { expected: 'the values as recorded; only the note may change', received: 'other values' })]
}

export const fitRules: Rules = {
  'fit.accepted': [namesPresentSystem, roundWasRead, namesKnownInputs, valuesAreWithinRanges, figuresStand],
}
