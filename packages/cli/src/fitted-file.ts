import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { fittedOverrides } from '@rillmark/casebook/calibration/fit-in-use.ts'
import { everyInput } from '@rillmark/casebook/calibration/inputs.ts'
import { reasonOfId } from '@rillmark/casebook/calibration/reasons.ts'
import type { ConditionsOverrides } from '@rillmark/casebook/conditions/overrides.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import * as z from 'zod'
import type { CommandIo } from './command.ts'
import { readText } from './files.ts'

const ranged = { value: z.number(), range: z.looseObject({ lower: z.number(), upper: z.number() }) }

/** As much of the answer of `rillmark system fit --json` as says how to simulate the building as fitted. */
const fittedFileSchema = z.looseObject({
  kind: z.literal('fitted'),
  inputs: z
    .array(z.looseObject({ id: z.string(), words: z.string(), unit: z.string(), after: z.looseObject(ranged) }))
    .min(1),
  findings: z.array(
    z.looseObject({ id: z.string(), words: z.string(), size: z.looseObject({ value: z.number() }).optional() }),
  ),
})

/** Fitted values from a file, as the simulation takes them and as its answer states them. */
export interface FittedFromFile {
  overrides: ConditionsOverrides
  fitted: {
    inputs: { id: string; words: string; unit: string; value: number; range: { lower: number; upper: number } }[]
    found: string[]
  }
}

/** Reads what `rillmark system fit --json` wrote about this system. */
export async function readFitted(
  file: string,
  { system, io }: { system: WaterSystem; io: CommandIo },
): Promise<FittedFromFile | { issues: Issue[] }> {
  const read = await readText(file, io)
  if ('issues' in read) return read
  const parsed = parseWith(fittedFileSchema, jsonOf(read.text))
  if (!parsed.ok) return { issues: parsed.issues.map((one) => ({ ...one, path: `--fitted ${one.path}`.trim() })) }
  const { inputs, findings } = parsed.value
  const known = new Set(everyInput(system).map(({ id }) => id))
  const issues = [
    ...unknownIn('inputs', { all: inputs, isKnown: ({ id }) => known.has(id) }),
    ...unknownIn('findings', { all: findings, isKnown: ({ id }) => reasonOfId(system, id) !== undefined }),
  ]
  if (issues.length > 0) return { issues }
  return {
    overrides: fittedOverrides(system, {
      inputs: inputs.map(({ id, after }) => ({ id, fitted: after })),
      found: findings,
    }),
    fitted: {
      inputs: inputs.map(({ id, words, unit, after: { value, range } }) => ({
        id,
        words,
        unit,
        value,
        range: { lower: range.lower, upper: range.upper },
      })),
      found: findings.map(({ words }) => words),
    },
  }
}

interface Named {
  id: string
}

function unknownIn<T extends Named>(
  name: string,
  { all, isKnown }: { all: readonly T[]; isKnown: (one: T) => boolean },
): Issue[] {
  return all
    .map((one, at) => ({ one, at }))
    .filter(({ one }) => !isKnown(one))
    .map(({ one, at }) => ({
      path: `--fitted ${name}.${at}.id`,
      expected: 'an id of a fit of this system',
      received: one.id,
    }))
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return undefined
  }
}
