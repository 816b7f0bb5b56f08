import { risingRoot } from '../distributions/rising-root.ts'
import type { Support } from './lattice.ts'

/** Matched sets that are alike: in each, `exposed` of exposed + `unexposed` people (the case among them) were exposed. */
export interface AlikeSets {
  sets: number
  exposed: number
  unexposed: number
}

/**
 * The chance that the case of a set is an exposed one, under an odds ratio: m·ψ / (m·ψ + u).
 *
 * @param alike a set
 * @param logOddsRatio natural logarithm of ψ
 * @source breslow-day-1980
 * @example
 * exposedCaseChance({ sets: 1, exposed: 1, unexposed: 3 }, 0) // => 0.25
 */
export function exposedCaseChance({ exposed, unexposed }: AlikeSets, logOddsRatio: number): number {
  return 1 / (1 + (unexposed / exposed) * Math.exp(-logOddsRatio))
}

/**
 * The distribution of how many sets have an exposed case, as a function of the log odds ratio. It is built once, by adding set to set, at
 * the odds ratio under which the wanted mean is expected; elsewhere it is that one shifted, since the odds ratio only weighs it by ψ^t.
 *
 * @param groups sets that are alike, together
 * @param mean a number of exposed cases near what will be asked, above 0 and below the number of sets
 * @source breslow-day-1980
 * @example
 * exposedCaseSets([{ sets: 2, exposed: 1, unexposed: 1 }], 1)(0).chances[1] // => 0.5
 */
export function exposedCaseSets(groups: readonly AlikeSets[], mean: number): (logOddsRatio: number) => Support {
  const expected = (log: number) => groups.reduce((sum, each) => sum + each.sets * exposedCaseChance(each, log), 0)
  const base = risingRoot({ rising: (log) => expected(log) - mean, start: 0, step: 1 })
  const built = sumOfSets(groups, base)
  return (log) => shifted(built, log - base)
}

/** Adds set to set; chances too small for a double are dropped at both ends. */
function sumOfSets(groups: readonly AlikeSets[], log: number): Support {
  let least = 0
  let chances = Float64Array.of(1)
  for (const group of groups) {
    const yes = exposedCaseChance(group, log)
    for (let set = 0; set < group.sets; set++) {
      const next = new Float64Array(chances.length + 1)
      for (let i = 0; i < chances.length; i++) {
        const chance = chances[i] ?? 0
        next[i] = (next[i] ?? 0) + chance * (1 - yes)
        next[i + 1] = chance * yes
      }
      const from = next.findIndex((chance) => chance > LEAST_HELD)
      const to = next.findLastIndex((chance) => chance > LEAST_HELD)
      least += from
      chances = next.slice(from, to + 1)
    }
  }
  return { least, chances }
}

const LEAST_HELD = 1e-300

function shifted({ least, chances }: Support, by: number): Support {
  const logs = chances.map((chance, i) => Math.log(chance) + i * by)
  const largest = logs.reduce((most, log) => Math.max(most, log), Number.NEGATIVE_INFINITY)
  const weights = logs.map((log) => Math.exp(log - largest))
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  return { least, chances: weights.map((weight) => weight / total) }
}
