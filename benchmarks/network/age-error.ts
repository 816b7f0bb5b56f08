// How far water age at the outlets is off in our day and in the engine's coarse ones, against the engine in steps of a minute with its quality
// in steps of a few seconds. All carry the same draws through the same network (without vessels); age is the mean of what each outlet gives in
// the last of a few days, which all but ours begin with new water.
// Run: node age-error.ts SHAPE PIPES DAYS
import { LONG_STEP_MINUTES } from '@rillmark/science/network/long-steps.ts'
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { NodeProperty, Option, Project, QualityType, Workspace } from 'epanet-js'
import { demandsOf, engineText } from '../../checks/network/engine-text.ts'
import { qualitySteps } from '../../checks/network/quality-steps.ts'
import { withoutVessels } from './age-run.ts'
import { building, type Shape } from './buildings.ts'

export interface AgeErrors {
  pipes: number
  outlets: number
  /** Mean age of what is drawn, minutes. */
  meanMinutes: number
  /** Of each way: minutes by which the outlets are off on the mean, and at most. */
  ours: AgeError
  /** The same with mains in steps of five minutes, as networks of more than 1,000 pipes have them. */
  oursLong: AgeError
  asLong: AgeError
  usual: AgeError
  /** The yardstick in steps twice as long: what it can tell at all. */
  yardstick: AgeError
}
export interface AgeError {
  mean: number
  largest: number
}

const [shape, pipes, spans] = process.argv.slice(2)
const HOUR_MINUTES = 60
const DAY_S = 86_400
/** Parcels nearer to each other than this are merged, h. */
const SAME_HOURS = 0.001
const YARDSTICK_S = 10
/** Ours begins with water as old as the mean flows make it, and is near to repeating itself after a few days. */
const MOST_DAYS = 6
console.warn = () => undefined
const network = withoutVessels(building({ pipes: Number(pipes), shape: shape as Shape, seed: 1 }))
/** Outlets of a tap; the others stand for what the engine has no tank for. */
const taps = network.outlets.flatMap(({ id, coldNode, draws }) =>
  id.startsWith('drawn') || draws.length === 0 || coldNode === undefined ? [] : [coldNode],
)
const workspace = new Workspace()
await workspace.loadModule()

/** Minutes of age of what each tap gives on the last day. */
function engineAges({ stepMinutes, qualityStepS }: { stepMinutes: number; qualityStepS: number }): number[] {
  const days = Number(spans)
  const { text } = engineText(network, { spans: days, spanMinutes: DAY_S / 60, stepMinutes, qualityStepS })
  workspace.writeFile('age.inp', text)
  const project = new Project(workspace)
  project.open('age.inp', 'age.rpt', 'age.out')
  project.setQualityType(QualityType.Age, 'age', 'h', '')
  project.setOption(Option.Tolerance, SAME_HOURS)
  project.solveH()
  const drawn = demandsOf(network, stepMinutes)
  const places = taps.map((node) => project.getNodeIndex(`N${node}`) - 1)
  const sums = taps.map(() => 0)
  const litres = taps.map(() => 0)
  const see = (_: number, second: number): void => {
    if (second < (days - 1) * DAY_S || second >= days * DAY_S) return
    const step = Math.floor((second % DAY_S) / (stepMinutes * 60))
    const ages = project.getNodeValues(NodeProperty.Quality)
    for (const [at, node] of taps.entries()) {
      const flow = drawn[node]?.[step] ?? 0
      sums[at] = (sums[at] ?? 0) + flow * (ages[places[at] ?? 0] ?? 0) * HOUR_MINUTES
      litres[at] = (litres[at] ?? 0) + flow
    }
  }
  qualitySteps(project, { stepS: qualityStepS, see })
  project.close()
  return sums.map((sum, at) => sum / (litres[at] ?? 0))
}

function ourAges(mainMinutes: number): number[] {
  const day = simulateDay(network, { stepMinutes: 1, mainMinutes, mostDays: MOST_DAYS })
  const byNode = new Map(network.outlets.map(({ coldNode }, at) => [coldNode, day.outlets[at]]))
  return taps.map((node) => (byNode.get(node)?.ageHours.mean ?? Number.NaN) * HOUR_MINUTES)
}

const truth = engineAges({ stepMinutes: 1, qualityStepS: YARDSTICK_S })
function errorOf(ages: readonly number[]): AgeError {
  const off = ages.map((age, at) => Math.abs(age - (truth[at] ?? 0)))
  return { mean: off.reduce((sum, each) => sum + each, 0) / off.length, largest: Math.max(...off) }
}
const answer: AgeErrors = {
  pipes: network.pipes.length,
  outlets: taps.length,
  meanMinutes: truth.reduce((sum, each) => sum + each, 0) / truth.length,
  ours: errorOf(ourAges(1)),
  oursLong: errorOf(ourAges(LONG_STEP_MINUTES)),
  asLong: errorOf(engineAges({ stepMinutes: 5, qualityStepS: 300 })),
  usual: errorOf(engineAges({ stepMinutes: 5, qualityStepS: 30 })),
  yardstick: errorOf(engineAges({ stepMinutes: 1, qualityStepS: 2 * YARDSTICK_S })),
}
process.stdout.write(`${JSON.stringify(answer)}\n`)
