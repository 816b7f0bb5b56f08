import { issue } from '@rillmark/science/catalogue/issue.ts'
import { fitInUse } from '../calibration/fit-in-use.ts'
import { canonicalJson } from '../chain/canonical.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import { systemEntryOf } from './system-entry.ts'

/** A prediction speaks of the building as it stands: one made before an edit arrived is made again. */
const namesPresentSystem: Rule<'prediction.recorded'> = ({ body }, { state, amends }) => {
  if (amends !== undefined) return []
  const present = systemEntryOf(state.record)
  if (present !== undefined && state.building.system !== undefined && body.system === present) return []
  const expected =
    present === undefined || state.building.system === undefined
      ? 'a described building'
      : `${present}, the entry that last shaped the building`
  return [issue('body.system', { expected, received: body.system })]
}

/** Fitted values that were taken over are taken; one made before they arrived is made again. */
const takesFittedValues: Rule<'prediction.recorded'> = ({ body }, { state, amends }) => {
  const fit = fitInUse(state)?.id
  if (amends !== undefined || body.fit === fit) return []
  const expected = fit === undefined ? 'no fit, since none is in use' : `${fit}, the fit in use`
  return [issue('body.fit', { expected, received: body.fit ?? 'none' })]
}

const placesAreDescribed: Rule<'prediction.recorded'> = ({ body }, { state, amends }) =>
  amends !== undefined
    ? []
    : body.places
        .map(({ place }, at) => ({ place, at }))
        .filter(({ place }) => state.building.working.component(place) === undefined)
        .map(({ place, at }) =>
          issue(`body.places.${at}.place`, { expected: 'a component of the described building', received: place }),
        )

const placesAreNamedOnce: Rule<'prediction.recorded'> = ({ body }) => {
  const seen = new Set<string>()
  return body.places.flatMap(({ place, water }, at) => {
    const key = JSON.stringify([place, water])
    if (!seen.has(key)) {
      seen.add(key)
      return []
    }
    return [issue(`body.places.${at}`, { expected: 'each water of a place once', received: `${place}, ${water}` })]
  })
}

const figuresAreInOrder: Rule<'prediction.recorded'> = ({ body }) =>
  body.places.flatMap((one, at) =>
    (['temperatureC', 'ageHours', 'residualMgPerL'] as const)
      .filter((quantity) => {
        const [mean, lowest, highest] = one[quantity]
        return lowest > mean || mean > highest
      })
      .map((quantity) =>
        issue(`body.places.${at}.${quantity}`, {
          expected: 'the mean, then the lowest (no more than the mean), then the highest (no less)',
          received: one[quantity].join(', '),
        }),
      ),
  )

/** Figures that were computed can't be set right by hand: that is another prediction. A note may be. */
const figuresStand: Rule<'prediction.recorded'> = ({ body }, { state, amends }) => {
  const before = state.building.predictions.find(({ id }) => id === amends)?.body
  if (before === undefined) return []
  const figures = ({ note: _note, ...rest }: typeof body): string => canonicalJson(rest)
  return figures(before) === figures(body)
    ? []
    : [issue('body', { expected: 'the figures as recorded; only the note may change', received: 'other figures' })]
}

export const predictionRules: Rules = {
  'prediction.recorded': [
    namesPresentSystem,
    takesFittedValues,
    placesAreDescribed,
    placesAreNamedOnce,
    figuresAreInOrder,
    figuresStand,
  ],
}
