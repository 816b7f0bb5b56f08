// The calculations beside R, NumPy and SciPy doing the same work in the same run. Ours goes through `runCalculation`, with all its checks of
// input and result. Each side warms up, takes its least processor time of some runs without start-up and reading, and must
// give the other's answers first. The forms of the peers are told at the head of peer.py and peer.R.
import { runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { batchRows } from './calculations/batch.ts'
import { edgeRows } from './calculations/edges.ts'
import { figuresAt, matrixSums } from './calculations/figures.ts'
import { designs, profiles, type Reading, readings, studies, type Table, tables } from './calculations/inputs.ts'
import { type Peer, peerTime } from './calculations/peers.ts'
import { leastProcessorMs, type Measurement } from './measure.ts'

interface Job {
  what: string
  id: string
  inputs: readonly object[]
  /** The figures of a result that peers give as well. */
  figures: readonly string[] | ((result: unknown) => number[][])
  /** The inputs as R reads them. */
  lines?: readonly (readonly number[])[]
  peers: readonly Peer[]
}

export async function measure(): Promise<Measurement[]> {
  const rows: Measurement[] = []
  for (const job of jobs()) rows.push(...(await beside(job)))
  return [...rows, ...edgeRows(), ...(await batchRows())]
}

async function beside({ what, id, inputs, figures, lines, peers }: Job): Promise<Measurement[]> {
  const work = () => inputs.map((input) => resultOf(id, input))
  const value = await leastProcessorMs(work)
  const answers = work().flatMap((result) =>
    typeof figures === 'function' ? figures(result) : [figuresAt(result, figures)],
  )
  return peers.map((peer) => {
    const time = peerTime(peer, { inputs, ...(lines && { lines }), answers })
    const row = { what, value, unit: 'ms' }
    if ('notMeasured' in time) return { ...row, note: time.notMeasured }
    return { ...row, ratio: { to: peer.name, times: value / time.ms, ...(peer.other !== true && { atMost: 1 }) } }
  })
}

function resultOf(id: string, input: object): unknown {
  const answer = runCalculation({ id, input })
  if ('issues' in answer) throw new Error(`${id}: ${JSON.stringify(answer.issues)}`)
  return answer.result
}

function jobs(): Job[] {
  const ofFewPeople = tables(300, 60)
  const ofManyPeople = tables(60, 3000)
  const counts = readings(40, 40)
  return [
    wells(),
    exposures('300 tables of two rows, up to 60 people a row', ofFewPeople),
    exposures('60 tables of two rows, up to 3,000 people a row', ofManyPeople),
    penalised('40 penalised models, 40 people, 2 covariates', studies(40, { people: 40, covariates: 2 })),
    penalised('5 penalised models, 500 people, 4 covariates', studies(5, { people: 500, covariates: 4 })),
    censored(counts),
    alleles(),
  ]
}

function wells(): Job {
  const python: Peer = { language: 'python', job: 'mpn', name: 'SciPy, one by one', tolerance: 1e-9 }
  return {
    what: '1,000 most probable numbers with limits',
    id: 'most-probable-number',
    inputs: designs(1000),
    figures: [
      'mpnPerMl',
      'interval.profileLikelihood.lower',
      'interval.profileLikelihood.upper',
      'interval.cox.lower',
      'interval.cox.upper',
      'standardErrorLog10.observed',
      'standardErrorLog10.expected',
      'rarityIndex',
    ],
    peers: [python, { ...python, job: 'mpn-together', name: 'NumPy, all at once', other: true }],
  }
}

function exposures(what: string, inputs: Table[]): Job {
  return {
    what,
    id: 'two-by-two',
    inputs,
    figures: [
      'oddsRatio.sample',
      'oddsRatio.conditional',
      'oddsRatio.interval.lower',
      'oddsRatio.interval.upper',
      'oddsRatio.midPInterval.lower',
      'oddsRatio.midPInterval.upper',
      'riskRatio.estimate',
      'riskRatio.interval.lower',
      'riskRatio.interval.upper',
      'fisherTwoSided',
      'midP',
    ],
    lines: inputs.map((each) => [each.exposedCases, each.exposedWell, each.unexposedCases, each.unexposedWell]),
    peers: [
      { language: 'python', job: 'two-by-two', name: 'SciPy', tolerance: 1e-8 },
      // Conditional estimate, exact limits and p. It finds large ratios as 1/ψ to 1e-4, so that an upper limit of hundreds is some percent off.
      { language: 'R', job: 'two-by-two', name: 'R’s fisher.test, no mid-p', tolerance: 0.05, figures: [1, 2, 3, 9] },
    ],
  }
}

function penalised(what: string, inputs: { rows: Record<string, number>[] }[]): Job {
  const names = Object.keys(inputs[0]?.rows[0] ?? {}).filter((name) => name !== 'outcome')
  const parts = ['estimate', 'interval.lower', 'interval.upper', 'p']
  return {
    what,
    id: 'penalised-logistic',
    inputs,
    figures: [
      'penalisedLogLikelihood',
      'test.p',
      ...['intercept', ...names].flatMap((name) => parts.map((part) => `coefficients.${name}.${part}`)),
    ],
    peers: [{ language: 'python', job: 'firth', name: 'NumPy', tolerance: 1e-6 }],
  }
}

function censored(studies: Reading[][]): Job {
  const ends = (reading: Reading) =>
    typeof reading === 'number' ? [reading, reading] : 'below' in reading ? [0, reading.below] : reading.between
  return {
    what: '40 censored summaries of 40 readings',
    id: 'censored-summary',
    inputs: studies.map((values) => ({ values })),
    figures: [
      'mle.meanLog',
      'mle.sdLog',
      'mle.logLikelihood',
      ...['interval', 'geometricMeanInterval', 'geometricSdInterval'].flatMap((name) => [
        `mle.${name}.lower`,
        `mle.${name}.upper`,
      ]),
    ],
    lines: studies.map((values) => values.flatMap(ends)),
    peers: [
      { language: 'python', job: 'censored', name: 'SciPy, likelihood alone', tolerance: 1e-5 },
      {
        language: 'R',
        job: 'censored',
        name: 'R, likelihood alone, two of three limits',
        tolerance: 1e-5,
        figures: [0, 1, 2, 3, 4, 5, 6],
      },
    ],
  }
}

function alleles(): Job {
  const python: Peer = { language: 'python', job: 'alleles', name: 'NumPy, row by row', tolerance: 0, runs: 1 }
  return {
    what: 'allele differences of 2,000 isolates at 2,000 loci',
    id: 'allele-distance',
    inputs: [profiles(2000, 2000)],
    figures: matrixSums,
    peers: [python, { ...python, job: 'alleles-bits', name: 'NumPy, 64 loci at a time', runs: 3, other: true }],
  }
}
