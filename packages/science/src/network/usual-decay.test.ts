import table from '@rillmark/reference/network/decay-defaults.json' with { type: 'json' }
import { expect, test } from 'vitest'
import { bulkFactor } from '../chlorine/bulk-factor.ts'
import { usualDecay } from './usual-decay.ts'

test.each(['free-chlorine', 'chloramine'])('the usual decay of %s lies within its own ranges', (disinfectant) => {
  const usual = usualDecay(disinfectant)
  const figures = [usual?.bulkPerHour, usual?.activationKJPerMol, usual?.wallMPerHour, usual?.standingSherwood]
  for (const figure of figures) {
    expect(figure?.value).toBeGreaterThanOrEqual(figure?.lower ?? Number.NaN)
    expect(figure?.value).toBeLessThanOrEqual(figure?.upper ?? Number.NaN)
  }
  expect(usual?.caveats.length).toBeGreaterThan(2)
})

test.each(table.disinfectants)('$disinfectant in cold and hot water follows from its activation energy', (each) => {
  for (const { temperatureC, bulkPerHour } of each.warmth) {
    const activationKJPerMol = each.activationKJPerMol.value
    const got = each.bulkPerHour.value * bulkFactor({ temperatureC, referenceC: table.referenceC, activationKJPerMol })
    // printed to three digits
    expect(Math.abs(got / bulkPerHour - 1)).toBeLessThan(2e-3)
  }
})

test('nothing is answered for a disinfectant of which nothing is known', () => {
  expect(usualDecay('other')).toBeUndefined()
  expect(usualDecay('none')).toBeUndefined()
})
