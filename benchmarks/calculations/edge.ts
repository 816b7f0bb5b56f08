// One of the largest inputs on its own, in a process of its own: prints milliseconds of processor time and the most memory held. Run: node edge.ts NAME
import { runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { profiles } from './inputs.ts'

const million = 1_000_000
const EDGES: Record<string, () => { id: string; input: unknown }> = {
  wells: () => ({
    id: 'most-probable-number',
    input: {
      wells: Array.from({ length: 10_000 }, (_, i) => {
        const volumeMl = (i + 1) / 1000
        return { volumeMl, inoculated: 100, positive: Math.round(-100 * Math.expm1(-0.3 * volumeMl)) }
      }),
    },
  }),
  table: () => ({
    id: 'two-by-two',
    input: { exposedCases: million, exposedWell: million, unexposedCases: million, unexposedWell: million },
  }),
  alleles: () => ({ id: 'allele-distance', input: profiles(5000, 3000) }),
}

const edge = EDGES[process.argv[2] ?? '']
if (edge === undefined) throw new RangeError(`Cannot measure because NAME is one of ${Object.keys(EDGES).join(', ')}`)
const given = edge()
const began = process.cpuUsage()
const answer = runCalculation(given)
const { user, system } = process.cpuUsage(began)
const ms = (user + system) / 1000
if ('issues' in answer) throw new Error(JSON.stringify(answer.issues))
process.stdout.write(`${JSON.stringify({ ms, peakMb: process.resourceUsage().maxRSS / 1024 })}\n`)
