import { expect, test } from 'vitest'
import { MEASURES } from './kinds.ts'
import { MEASURES_REFERENCE, measuresReferenceSchema, referenceFor } from './reference-measures.ts'

const targets = MEASURES_REFERENCE.measures.flatMap(({ targets }) => targets)

test('[CTL10] every published target has its source and how it is known, and no id twice', () => {
  expect(new Set(targets.map(({ id }) => id)).size).toBe(targets.length)
  const bare = { ...MEASURES_REFERENCE.measures.find((each) => each.targets.length > 0)?.targets[0], source: undefined }
  const broken = { ...MEASURES_REFERENCE, measures: [{ measure: 'flush', targets: [bare], against: [], cautions: [] }] }
  expect(measuresReferenceSchema.safeParse(broken).success).toBe(false)
})

test('[CTL10] where sources disagree about heat or chlorine, the disagreement stands beside the targets', () => {
  for (const measure of ['heat disinfection', 'shock chlorination'] as const) {
    const { targets, against } = referenceFor(measure)
    expect(targets.length).toBeGreaterThan(2)
    expect(against.length).toBeGreaterThan(0)
  }
  expect(
    referenceFor('heat disinfection')
      .against.map(({ text }) => text)
      .join(' '),
  ).toMatch(/not recommend/)
})

test('[CTL10] what scalds, poisons or sprays has its caution; any measure can be asked for', () => {
  for (const measure of ['flush', 'heat disinfection', 'shock chlorination', 'change setting'] as const)
    expect(referenceFor(measure).cautions.length).toBeGreaterThan(0)
  expect(MEASURES.every((measure) => referenceFor(measure).measure === measure)).toBe(true)
})
