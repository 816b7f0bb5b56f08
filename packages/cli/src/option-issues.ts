import { UNIT_SYSTEMS } from '@rillmark/casebook/units/display-units.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'

const LARGEST_SEED = 4_294_967_295

/** A whole number of an option, from `least` to `most`. */
export const isWhole = (text: string, { least, most }: { least: number; most: number }): boolean =>
  /^\d+$/.test(text) && Number(text) >= least && Number(text) <= most

/** What is wrong with the seed of a simulation as it was typed. */
export const seedIssues = (seed: string): Issue[] =>
  isWhole(seed, { least: 0, most: LARGEST_SEED })
    ? []
    : [{ path: '--seed', expected: `a whole number up to ${LARGEST_SEED}`, received: seed }]

/** What is wrong with the system of units as it was typed. */
export const unitsIssues = (units: string): Issue[] =>
  UNIT_SYSTEMS.some((one) => one === units)
    ? []
    : [{ path: '--units', expected: UNIT_SYSTEMS.join(' or '), received: units }]
