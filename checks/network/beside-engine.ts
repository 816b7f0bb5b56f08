import type { Network } from '@rillmark/science/network/network.ts'
import { volumeL } from './build.ts'
import { compare, type Difference } from './compare.ts'
import { runEngine } from './engine.ts'
import { randomNetwork, type RandomNetworkWish } from './random-networks.ts'

export type Kind = 'tree' | 'throttled loops' | 'loops' | 'two entries' | 'tank and return' | 'loops, tank and returns'

const KINDS: Record<Kind, Omit<RandomNetworkWish, 'seed' | 'pipes'>> = {
  tree: { loops: 0 },
  'throttled loops': { loops: 3, throttled: true, scale: 20 },
  loops: { loops: 3, scale: 20 },
  'two entries': { loops: 2, twoSources: true, scale: 20 },
  'tank and return': { loops: 0, vessel: { returns: 1 } },
  'loops, tank and returns': { loops: 2, throttled: true, vessel: { returns: 2 } },
}
const FEWEST_PIPES = 8
const MOST_PIPES = 60
const SAME_FINE = { hours: 0.001, share: 0.0001 }
const SAME_COARSE = { hours: 0.01, share: 0.002 }
const COMMON = { ambientC: 20 }

/** Kind and seed of a network; each seed has another size. */
export type Case = readonly [kind: Kind, seed: number]

export function cases(wanted: Readonly<Partial<Record<Kind, readonly number[]>>>): Case[] {
  return Object.entries(wanted).flatMap(([kind, seeds]) => seeds.map((seed): Case => [kind as Kind, seed]))
}

/** Constant draws: the last of some hours. A tank takes longer to settle than an hour can show. */
export function besideSteady([kind, seed]: Case): Difference[] {
  const tank = KINDS[kind].vessel !== undefined
  return compare({
    network: flowing({ ...KINDS[kind], seed, pipes: pipesOf(seed) }),
    run: {
      ...COMMON,
      spanMinutes: tank ? 480 : 60,
      stepMinutes: 10,
      qualityStepS: tank ? 10 : 5,
      readEvery: tank ? 30 : 60,
      same: SAME_FINE,
    },
    stepMinutes: 1,
    trace: flowsAlikeWhenWarm(kind),
  })
}

/** Draws that start and stop: a day that repeats. Ours in steps of a minute, the engine's flows in steps of the draws. */
export function besideDay([kind, seed]: Case, { mainMinutes = 1 } = {}): Difference[] {
  const tank = KINDS[kind].vessel !== undefined
  const stepMinutes = 5
  return compare({
    network: randomNetwork({ ...KINDS[kind], seed, pipes: pipesOf(seed), stepMinutes }),
    run: {
      ...COMMON,
      spanMinutes: 1440,
      stepMinutes,
      qualityStepS: tank ? 10 : 30,
      readEvery: 1,
      same: SAME_COARSE,
    },
    stepMinutes: 1,
    mainMinutes,
    trace: flowsAlikeWhenWarm(kind),
  })
}

/** The slowest flow that is not none, and the longest stay in a pipe, of a steady network that the engine can answer for. */
const SLOWEST_L_PER_MIN = 0.03
const LONGEST_MINUTES = 120
const STILL_L_PER_MIN = 1e-5
const NEXT_SEED = 1000

/** The first network of a row of seeds in which no ring all but stands: the engine takes such water for standing, or needs days of it. */
function flowing(wish: RandomNetworkWish): Network {
  for (let seed = wish.seed; ; seed += NEXT_SEED) {
    const network = randomNetwork({ ...wish, seed })
    const run = { ...COMMON, spans: 1, spanMinutes: 10, stepMinutes: 10, qualityStepS: 60, readEvery: 1 }
    const { flows } = runEngine(network, { ...run, constituents: [] })
    const stands = network.pipes.some((pipe, at) => {
      const flow = Math.abs(flows[at] ?? 0)
      return flow > STILL_L_PER_MIN && (flow < SLOWEST_L_PER_MIN || volumeL(pipe) / flow > LONGEST_MINUTES)
    })
    if (!stands) return network
  }
}

function pipesOf(seed: number): number {
  return FEWEST_PIPES + 4 + ((seed * 17) % (MOST_PIPES - FEWEST_PIPES - 3))
}

const flowsAlikeWhenWarm = (kind: Kind): boolean => KINDS[kind].loops === 0 || KINDS[kind].throttled === true

/** What is beyond the allowed share, in words. */
export function beyond(
  differences: readonly Difference[],
  allowed: { most?: number; mostOnAverage?: number },
): string[] {
  const percent = (share: number) => `${(100 * share).toFixed(2)} %`
  return differences.flatMap(({ constituent, most, mostOnAverage }) => {
    const kept = most <= (allowed.most ?? Number.POSITIVE_INFINITY)
    const keptOnAverage = mostOnAverage <= (allowed.mostOnAverage ?? Number.POSITIVE_INFINITY)
    return kept && keptOnAverage
      ? []
      : [`${constituent}: at most ${percent(most)}, on average ${percent(mostOnAverage)}`]
  })
}
