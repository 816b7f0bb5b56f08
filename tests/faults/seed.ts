import { seededRandom } from '@rillmark/science/random/random-source.ts'

/** The seed of everything chosen by chance under this folder, so that a run can be repeated; `RILLMARK_SEED` sets another. */
export const SEED = whole(process.env['RILLMARK_SEED']) ?? 20_261_130

/** How often: a smaller number while working on the tests. What counts as proved is the usual one. */
export function times(usual: number, name: string): number {
  return whole(process.env[name]) ?? usual
}

export interface Chance {
  /** a whole number from `low` to `high`, both possible */
  readonly between: (low: number, high: number) => number
  readonly oneIn: (cases: number) => boolean
  readonly pick: <T>(from: readonly T[]) => T
  readonly shuffled: <T>(from: readonly T[]) => T[]
}

/** Chance of its own for every part of a test, from the seed and a number. */
export function chance(part: number): Chance {
  const source = seededRandom((SEED + Math.imul(part, 0x9e3779b1)) >>> 0)
  const between = (low: number, high: number): number => low + Math.floor(source.uniform() * (high - low + 1))
  const pick = <T>(from: readonly T[]): T => {
    const picked = from[between(0, from.length - 1)]
    if (picked === undefined) throw new RangeError('Cannot pick because there is nothing to pick from')
    return picked
  }
  const shuffled = <T>(from: readonly T[]): T[] => {
    const left = [...from]
    return from.flatMap(() => left.splice(between(0, left.length - 1), 1))
  }
  return { between, oneIn: (cases) => between(1, cases) === 1, pick, shuffled }
}

function whole(text: string | undefined): number | undefined {
  return text !== undefined && /^\d{1,9}$/.test(text) ? Number(text) : undefined
}

/** Said at the start of a test, so that a failure can be repeated. */
export function tellSeed(what: string): void {
  process.stdout.write(`${what}: seed ${SEED} (RILLMARK_SEED)\n`)
}
