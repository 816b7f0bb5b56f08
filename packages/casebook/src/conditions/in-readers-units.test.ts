import { expect, test } from 'vitest'
import { METRIC_UNITS, US_UNITS } from '../units/display-units.ts'
import { inReadersUnits } from './in-readers-units.ts'

// 22 °C = 71.6 °F, 5 K = 9 °F, 1 in = 25.4 mm, 1 US gal = 3.785 411 784 L: definitions of the units (NIST SP 811, from memory);
// 9 L/min = 2.378 US gal/min, told with the digits that 9 supports, as [UNI5] says
test.each([
  ['Air around pipes and tanks: 22 °C', 'Air around pipes and tanks: 71.6 °F'],
  ['4 a day, 6 min at 9 L/min, mixed to 38 °C', '4 a day, 6 min at 2.4 US gal/min, mixed to 100.4 °F'],
  ['Insulation: 25.4 mm thick', 'Insulation: 1 in thick'],
  ['It cools by 5 K.', 'It cools by 9 °F.'],
  ['Conductivity of insulation: 0.035 W/(m·K)', 'Conductivity of insulation: 0.035 W/(m·K)'],
  ['Heat taken up: 2 W/(m²·K), 0.5 mg/L, 3 min', 'Heat taken up: 2 W/(m²·K), 0.5 mg/L, 3 min'],
])('[PRD7] "%s" in US units', (text, us) => {
  expect(inReadersUnits(text, US_UNITS)).toBe(us)
  expect(inReadersUnits(text, METRIC_UNITS)).toBe(text)
})
