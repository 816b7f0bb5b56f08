import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import { applyWhatIf, type WhatIfChange } from '@rillmark/casebook/conditions/what-if.ts'
import { METRIC_UNITS, US_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { expect, test } from 'vitest'
import { CHANGE_CHOICES, changeOf, changeWords, EMPTY_DRAFT, partChoices, type WhatIfDraft } from './what-if-draft.ts'

const built = buildSystem(marramHouse)
const unused = { pattern: 'unused' as const }
const system = {
  ...built,
  components: built.components.map((one) => (one.id === 'basin-tap-c605' ? { ...one, use: unused } : one)),
}
const draft = (over: Partial<WhatIfDraft>): WhatIfDraft => ({ ...EMPTY_DRAFT, ...over })

test.each([
  [draft({ part: 'heater-1', figure: '140 °F' }), { change: 'set-point', component: 'heater-1', setpointC: 60 }],
  [
    draft({ change: 'insulation', part: 'hot', figure: '0' }),
    { change: 'insulation', of: { circuit: 'hot' }, insulationMm: 0 },
  ],
  [
    draft({ change: 'use', part: 'x', use: 'used', figure: '4' }),
    { change: 'use', outlet: 'x', use: { as: 'used', eventsPerDay: 4 } },
  ],
  [draft({ change: 'use', part: 'x', use: 'unused' }), { change: 'use', outlet: 'x', use: { as: 'unused' } }],
  [
    draft({ change: 'use', part: 'x' }),
    { change: 'use', outlet: 'x', use: { as: 'flushed daily', at: '07:00', minutes: 3, flowLPerMin: 6 } },
  ],
  [draft({ change: 'remove-dead-leg', part: 'p' }), { change: 'remove-dead-leg', part: 'p' }],
] as const)('what is typed becomes a change: %j', (typed, want) => {
  expect(changeOf(typed)).toEqual(want)
})

test.each([
  draft({ part: 'heater-1' }),
  draft({ figure: '55' }),
  draft({ part: 'heater-1', figure: 'hot' }),
  draft({ change: 'loop-flow', part: 'p', figure: '-1' }),
  draft({ change: 'insulation', part: 'no circuit', figure: '9' }),
  draft({ change: 'use', part: 'x', use: 'used', figure: '0' }),
  draft({ change: 'use', part: 'x', at: '25:00' }),
])('while something is missing or can’t be read there is no change: %j', (typed) => {
  expect(changeOf(typed)).toBeUndefined()
})

test('every part offered can be changed, and the change is named by it', () => {
  const figures: Partial<Record<WhatIfChange['change'], string>> = {
    'set-point': '55',
    'loop-flow': '2',
    insulation: '9',
    use: '3',
  }
  for (const { id: change } of CHANGE_CHOICES) {
    const parts = partChoices(system, change)
    expect(parts.length, change).toBeGreaterThan(0)
    for (const part of parts) {
      const made = changeOf(draft({ change, part: part.id, use: 'unused', figure: figures[change] ?? '' }))
      expect(made, part.label).toBeDefined()
      if (made === undefined) continue
      expect(applyWhatIf(system, [made]).kind, part.label).toBe('changed')
      expect(changeWords(made, { system, units: METRIC_UNITS }).toLowerCase()).toContain(part.label.toLowerCase())
    }
  }
})

test('figures are said in the units of the reader', () => {
  const change = { change: 'set-point', component: 'heater-1', setpointC: 60 } as const
  expect(changeWords(change, { system, units: US_UNITS })).toMatch(/: set point 140 °F$/)
  expect(changeWords(change, { system, units: METRIC_UNITS })).toMatch(/: set point 60 °C$/)
})
