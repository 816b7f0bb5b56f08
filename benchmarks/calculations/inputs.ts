// Invented inputs for the calculations, the same in every run.

export interface Design {
  wells: { volumeMl: number; inoculated: number; positive: number }[]
}

export interface Table {
  exposedCases: number
  exposedWell: number
  unexposedCases: number
  unexposedWell: number
}

export interface Study {
  rows: ({ outcome: 0 | 1 } & Record<string, number>)[]
}

export type Reading = number | { below: number } | { between: [number, number] }

export interface Profiles {
  profiles: { id: string; alleles: (number | null)[] }[]
}

/** A plain generator (a linear congruence), so that a run can be repeated. */
export function chances(seed: number): () => number {
  let state = seed
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
}

/** Designs of three to five volumes of which some wells grew and some didn't. */
export function designs(count: number): Design[] {
  const chance = chances(1)
  return Array.from({ length: count }, () => {
    const perMl = 10 ** (4 * chance() - 1)
    const inoculated = 5 + Math.floor(16 * chance())
    const wells = Array.from({ length: 3 + Math.floor(3 * chance()) }, (_, i) => {
      const volumeMl = 10 ** (1 - i)
      const draws = Array.from({ length: inoculated }, chance)
      return { volumeMl, inoculated, positive: draws.filter((draw) => draw < -Math.expm1(-perMl * volumeMl)).length }
    })
    const last = wells.length - 1
    // Not all and not none: those have no finite estimate.
    return {
      wells: wells.map((each, i) => ({
        ...each,
        positive:
          i === 0 ? Math.max(1, each.positive) : i === last ? Math.min(inoculated - 1, each.positive) : each.positive,
      })),
    }
  })
}

/** Tables of which no cell is empty, with odds ratios of up to some tens. */
export function tables(count: number, largest: number): Table[] {
  const chance = chances(2)
  const row = () => {
    const people = Math.ceil(largest * (0.3 + 0.7 * chance()))
    const ill = Math.ceil(people * (0.15 + 0.65 * chance()))
    return { ill, well: people - ill }
  }
  return Array.from({ length: count }, () => {
    const [exposed, unexposed] = [row(), row()]
    return {
      exposedCases: exposed.ill,
      exposedWell: exposed.well,
      unexposedCases: unexposed.ill,
      unexposedWell: unexposed.well,
    }
  })
}

/** People with a yes-or-no exposure, an age in decades and further exposures. */
export function studies(count: number, { people, covariates }: { people: number; covariates: number }): Study[] {
  const chance = chances(3)
  return Array.from({ length: count }, () => ({
    rows: Array.from({ length: people }, () => {
      const age = Math.round(20 + 700 * chance()) / 100
      const exposures = Array.from({ length: covariates - 1 }, () => Number(chance() < 0.4))
      const logit = -2.5 + 0.3 * age + exposures.reduce((sum, exposure, i) => sum + exposure * (1.2 - 0.4 * i), 0)
      const named = exposures.map((exposure, i) => [`exposure${i}`, exposure] as const)
      return { outcome: chance() < 1 / (1 + Math.exp(-logit)) ? 1 : 0, age, ...Object.fromEntries(named) }
    }),
  }))
}

/** Counts with three limits and some only known between two figures. */
export function readings(count: number, size: number): Reading[][] {
  const chance = chances(4)
  const normal = () => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance())
  const limits = [10, 50, 100]
  return Array.from({ length: count }, () =>
    Array.from({ length: size }, () => {
      const value = Number(Math.exp(4 + 1.6 * normal()).toPrecision(3))
      const below = limits[Math.floor(3 * chance())] ?? 10
      if (value < below) return { below }
      return chance() < 0.1 ? { between: [value / 2, value * 2] } : value
    }),
  )
}

/** Core-genome profiles: at each locus one allele that most have, hundreds that few have, and some missing. */
export function profiles(isolates: number, loci: number): Profiles {
  const chance = chances(5)
  const allele = () => (chance() < 0.02 ? null : chance() < 0.3 ? 1 + Math.floor(300 * chance()) : 1)
  return {
    profiles: Array.from({ length: isolates }, (_, i) => ({
      id: `isolate ${i}`,
      alleles: Array.from({ length: loci }, allele),
    })),
  }
}
