import type { Conditions } from '@rillmark/casebook/conditions/conditions.ts'
import { countedWords, type Ranking, rankPlaces } from '@rillmark/casebook/conditions/rankings.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'

/** The prediction in a line: how many places to look at first, and why them. */
export function headline(
  system: WaterSystem,
  { conditions, units }: { conditions: Conditions; units: DisplayUnits },
): { title: string; lead: string } {
  const count = (ranking: Ranking): { of: number; found: number } => {
    const rows = rankPlaces({ system, conditions, ranking, units })
    const places = (of: typeof rows): number => new Set(of.map(({ id }) => id)).size
    return { of: places(rows), found: places(rows.filter((row) => row.counted)) }
  }
  const hot = count('coolest-hot')
  const cold = count('warmest-cold')
  const still = count('standing').found
  const parts = [
    hot.found > 0 && `hot water at ${hot.found} of ${hot.of} outlets ${countedWords('coolest-hot', units)}`,
    cold.found > 0 && `cold water at ${cold.found} of ${cold.of} ${countedWords('warmest-cold', units)}`,
    still > 0 && `in ${counted(still, 'place')} some water does not move all day`,
  ].filter((part) => part !== false)
  const guessed = conditions.assumptions.length
  return {
    title:
      parts.length === 0
        ? 'Predicted: every outlet gets hot water hot and cold water cold, and everything moves'
        : `Predicted: ${parts.join('; ')}`,
    lead: `Over a day that repeats, from the description${guessed === 0 ? '' : ` and ${counted(guessed, 'assumption')}`}. A screening model: it says where to look first, not what is there.`,
  }
}
