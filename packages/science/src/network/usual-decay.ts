import table from '@rillmark/reference/network/decay-defaults.json' with { type: 'json' }

/** A figure taken for want of a better, and how far off it may be. */
export interface UsualFigure {
  value: number
  lower: number
  upper: number
  unit: string
  source: string
  known: string
  note: string
}

export interface UsualDecay {
  referenceC: number
  bulkPerHour: UsualFigure
  activationKJPerMol: UsualFigure
  wallMPerHour: UsualFigure
  standingSherwood: UsualFigure
  /** What the figures leave out, in words. */
  caveats: readonly string[]
}

/**
 * The decay taken for a disinfectant where nothing was measured (bulk per hour at a reference temperature, wall m/h).
 * Wanted because most descriptions say nothing of decay, and a range is more honest than a number.
 *
 * Special cases: nothing is known of other disinfectants here, and nothing is answered. One set serves cold and hot water, by
 * the activation energy; of chloramine with nitrifying biofilm the reverse was seen.
 *
 * @param disinfectant of the supply
 * @source bulk-decay-handbooks
 * @source wall-decay-remembered
 * @source odimayomi-2026
 * @example
 * usualDecay('free-chlorine').bulkPerHour.value // => 0.02
 */
export function usualDecay(disinfectant: string): UsualDecay | undefined {
  const found = table.disinfectants.find((each) => each.disinfectant === disinfectant)
  if (found === undefined) return undefined
  const { bulkPerHour, activationKJPerMol, wallMPerHour } = found
  return {
    referenceC: table.referenceC,
    bulkPerHour,
    activationKJPerMol,
    wallMPerHour,
    standingSherwood: table.standingSherwood,
    caveats: found.caveats.map(({ text }) => text),
  }
}
