import { describe, expect, it } from 'vitest'
import type { Procedure } from '@rillmark/casebook/procedures/procedure.ts'
import { PROCEDURES } from '@rillmark/casebook/procedures/procedures.ts'
import type { Figure } from '@rillmark/casebook/units/figure.ts'

// US CDC, Sampling Procedure and Potential Sampling Sites: seen.
const CDC = {
  swabMl: { min: 3, max: 5 },
  bottleMl: 1000,
  headspaceMm: 25,
  doseMlPerL: 0.5,
  normality: 0.1,
  renewMonths: 12,
  tubeMl: 15,
}

const withWater = PROCEDURES.filter(({ neutralizer }) => neutralizer !== undefined)

describe('procedures against the published sampling procedure', () => {
  it('first flush of 3 to 5 mL in a 15 mL tube with one drop', () => {
    for (const { steps, containers } of PROCEDURES.filter(({ sampleKinds }) =>
      sampleKinds.includes('first-flush-swab'),
    )) {
      expect(steps.find(({ id }) => id === 'first-water')?.volume?.value).toEqual(CDC.swabMl)
      expect(steps.find(({ id }) => id === 'swab-neutralizer')?.dose?.value).toBe(1)
      expect(containers.find(({ id }) => id === 'swab-tube')?.capacity.value).toBe(CDC.tubeMl)
    }
  })

  it('a 1 L bottle with 0.5 mL of 0.1 N and about an inch of air', () => {
    for (const { id, steps, containers, neutralizer } of withWater) {
      expect([id, containers.find((one) => one.id === 'bulk-bottle')?.capacity.value]).toEqual([id, CDC.bottleMl])
      expect([id, steps.find((step) => step.id === 'bulk-neutralizer')?.dose?.value]).toEqual([id, CDC.doseMlPerL])
      expect([id, steps.find(({ headspace }) => headspace !== undefined)?.headspace?.value]).toEqual([
        id,
        CDC.headspaceMm,
      ])
      expect([id, neutralizer?.normality.value, neutralizer?.renewAfter.value]).toEqual([
        id,
        CDC.normality,
        CDC.renewMonths,
      ])
    }
  })

  it('what the dose covers follows from the atomic weight of chlorine (2 × 35.453 g/mol) and one electron: computed', () => {
    const millimolesPerL = CDC.doseMlPerL * CDC.normality
    const coversMgPerL = (millimolesPerL / 2) * 2 * 35.453
    for (const { neutralizer } of withWater) expect(neutralizer?.covers.value).toBe(Number(coversMgPerL.toFixed(2)))
  })

  it('hold: 24 h and 5 ± 3 °C (EN ISO 19458 as restated: seen, secondary), with the figures that disagree kept beside it', () => {
    for (const { hold } of withWater) {
      expect(hold?.hours.value).toBe(24)
      expect(hold?.transport.value).toEqual({ min: 5 - 3, max: 5 + 3 })
      expect(hold?.disagreeing.map(({ unit, known }) => [unit, known])).toEqual([
        ['h', 'memory'],
        ['°C', 'memory'],
        ['°C', 'memory'],
      ])
    }
  })

  it('says where every figure comes from, and calls nothing without a source seen', () => {
    for (const procedure of PROCEDURES)
      for (const figure of figuresOf(procedure)) {
        expect(figure.source.length).toBeGreaterThan(0)
        expect([procedure.id, figure.source.includes('no source') && figure.known === 'seen']).toEqual([
          procedure.id,
          false,
        ])
      }
  })
})

function figuresOf({ steps, containers, minutes, hold, neutralizer }: Procedure): Pick<Figure, 'source' | 'known'>[] {
  return [
    ...steps.flatMap((step) => [step, step.timer, step.volume, step.headspace, step.dose, step.caution]),
    ...containers.flatMap((container) => [container, container.capacity]),
    minutes,
    ...(hold === undefined ? [] : [hold.hours, hold.transport, ...hold.disagreeing]),
    ...(neutralizer === undefined ? [] : [neutralizer.normality, neutralizer.renewAfter, neutralizer.covers]),
  ].filter((figure) => figure !== undefined)
}
