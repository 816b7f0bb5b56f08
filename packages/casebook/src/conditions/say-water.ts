import { residualDamping } from '@rillmark/science/network/growth.ts'
import { makeKinetics, tabled } from '@rillmark/science/network/kinetics.ts'
import { wallFilm } from '@rillmark/science/chlorine/wall-film.ts'
import { wallLossPerHour } from '@rillmark/science/chlorine/wall-loss.ts'
import type { Chemistry } from '@rillmark/science/network/network.ts'
import table from '@rillmark/reference/conditions/explanation.json' with { type: 'json' }
import { GROWTH_BAND } from '../findings/temperature-band.ts'
import type { Sentence } from './explanation.ts'
import { type ExplainedSide, joinings, lostK, pieceHours, pieceLostK, sum } from './explained-side.ts'
import type { TravelledPiece } from './explained-system.ts'
import { pipeWords, placeWords } from './part-words.ts'
import type { SpokenFigures } from './spoken-figures.ts'

interface Saying {
  readonly side: ExplainedSide
  readonly say: SpokenFigures
}

const FROM = table.figures

/** How hot or cold it arrives, and what it lost or took up where. */
export function sayTemperature(saying: Saying): Sentence[] {
  const { side, say } = saying
  const { place, pieces, start } = side
  const { mean, min, max } = place.temperatureC
  if (place.neverMoves === true) return [about(`It has the temperature of the air around it, ${say.degrees(mean)}.`)]
  const spread = max - min < LEAST_K ? 'all day' : `on average (${say.degrees(min)} to ${say.degrees(max)})`
  const arrives = `It is ${say.degrees(mean)} ${spread}`
  if (pieces.length === 0 || start === undefined) return [about(`${arrives}.`)]
  const set = `It sets out at ${say.degrees(start.temperatureC.mean)}`
  const parts = [...(side.circuit === 'cold' ? warming(saying) : cooling(saying)), ...joining(saying)]
  return [about(`${arrives}. ${[`${set} from ${placeWords(side.explained, side.source)}`, ...parts].join('. ')}.`)]
}

const about = (text: string): Sentence => ({ about: 'temperature', text })

/** Less than this is not worth a sentence. */
const LEAST_K = 0.1

function cooling({ side, say }: Saying): string[] {
  const { moving, standing, place } = side
  const lost = lostK(moving)
  const watts = sum(moving.map(({ day }) => day.heatLossW))
  const [most] = moving.toSorted((a, b) => pieceLostK(b) - pieceLostK(a))
  const named =
    most !== undefined && moving.length > 1 && pieceLostK(most) >= LEAST_K
      ? `, ${say.kelvin(pieceLostK(most))} of it in the ${pipeWords(side.explained, most.pipe)}`
      : ''
  const onTheWay =
    moving.length === 0 || lost < LEAST_K
      ? []
      : [`On the way that always moves it loses ${say.kelvin(lost)} (${say.watts(watts)} from these pipes)${named}`]
  const air = standing.at(-1)?.build.ambientC
  if (air === undefined) return onTheWay
  const behind = lostK(standing)
  const cools =
    behind < LEAST_K
      ? []
      : [
          `Where it stands it cools towards the air of ${say.degrees(air)}, by ${say.kelvin(behind)} on average; running brings up to ${say.degrees(place.temperatureC.max)}`,
        ]
  return [...onTheWay, ...cools]
}

function warming({ side, say }: Saying): string[] {
  const { pieces, place, start } = side
  const gained = place.temperatureC.mean - (start?.temperatureC.mean ?? place.temperatureC.mean)
  const [most] = pieces.toSorted((a, b) => pieceLostK(a) - pieceLostK(b))
  if (most === undefined || gained < LEAST_K) return ['Nothing on the way warms it']
  const share = -pieceLostK(most)
  const where = `in the ${pipeWords(side.explained, most.pipe)}, which lies in air of ${say.degrees(most.build.ambientC)}`
  const how = most.alwaysMoves ? '' : ' and stands between draws'
  const running = `Running brings down to ${say.degrees(place.temperatureC.min)}`
  return [`On the way it takes up ${say.kelvin(gained)}, ${say.kelvin(share)} of it ${where}${how}`, running]
}

/** Other water that joins on the way and changes the temperature, where that is worth a sentence. */
function joining({ side, say }: Saying): string[] {
  const most = joinings(side).toSorted((a, b) => Math.abs(b.warmerK) - Math.abs(a.warmerK))[0]
  if (most === undefined || Math.abs(most.warmerK) < FROM.leastDropK.value) return []
  const does = most.warmerK > 0 ? 'warms' : 'cools'
  return [`At ${placeWords(side.explained, most.at)} other water joins and ${does} it by ${say.kelvin(most.warmerK)}`]
}

/** Shares of what the residual lost, by what took it. */
export interface ResidualShares {
  readonly water: number
  readonly walls: number
  /** the part of the loss in the water that is owed to its being warmer than the reference */
  readonly warmth: number
}

/**
 * To what the residual is lost on the way, as shares of the whole: to the water as it would be at the reference temperature, to its
 * being warmer, and to the walls. From the hours the water spent in each pipe and the rates of the simulation there.
 */
export function residualShares({
  explained,
  pieces,
}: Pick<ExplainedSide, 'explained' | 'pieces'>): ResidualShares | undefined {
  const { chemistry } = explained.network
  const kinetics = makeKinetics(chemistry)
  const losses = pieces.map((piece) => {
    const hours = pieceHours(piece)
    const atC = (piece.after.temperatureC.mean + (piece.before ?? piece.after).temperatureC.mean) / 2
    const usual = tabled(kinetics.bulkPerHour, chemistry.referenceC)
    return {
      water: hours * usual,
      warmth: hours * (tabled(kinetics.bulkPerHour, atC) - usual),
      walls: hours * wallPerHour(piece, { chemistry, atC }),
    }
  })
  const water = sum(losses.map((one) => one.water))
  const warmth = Math.max(0, sum(losses.map((one) => one.warmth)))
  const walls = sum(losses.map((one) => one.walls))
  const all = water + warmth + walls
  return all > 0 ? { water: water / all, warmth: warmth / all, walls: walls / all } : undefined
}

/** What the wall of a piece takes: of water that moves where it always moves, else of standing water. */
function wallPerHour(piece: TravelledPiece, { chemistry, atC }: { chemistry: Chemistry; atC: number }): number {
  const { boreMm, lengthM } = piece.build
  const { wallMPerHour, standingSherwood } = chemistry
  const flowLPerMin = piece.alwaysMoves ? Math.abs(piece.day.flowLPerMin.mean) : 0
  const { filmMPerHour } = wallFilm({ boreMm, lengthM, temperatureC: atC, flowLPerMin, standingSherwood })
  return wallLossPerHour({ boreM: boreMm / MM_PER_M, filmMPerHour, wallMPerHour })
}

const MM_PER_M = 1000

/** What is left of the residual, and to what the rest went. */
export function sayResidual({ side, say }: Saying): Sentence[] {
  const { place, start, pieces, explained } = side
  if (explained.conditions.residualUnknown === true)
    return [{ about: 'residual', text: 'Nothing was said of the supply’s residual, so none is computed.' }]
  const left = `It carries ${say.milligrams(place.residualMgPerL.mean)} of disinfectant on average`
  if (place.neverMoves === true) return [{ about: 'residual', text: 'No disinfectant is left where nothing moves.' }]
  const began = start?.residualMgPerL.mean ?? 0
  if (pieces.length === 0 || began - place.residualMgPerL.mean < LEAST_MG_PER_L)
    return [{ about: 'residual', text: `${left}.` }]
  const shares = residualShares(side)
  const went = shares === undefined ? '' : ` ${shareWords(shares)}`
  return [
    {
      about: 'residual',
      text: `${left}, of ${say.milligrams(began)} when it left ${placeWords(explained, side.source)}.${went}`,
    },
  ]
}

const LEAST_MG_PER_L = 0.01

function shareWords({ water, walls, warmth }: ResidualShares): string {
  const named = (
    [
      [walls, 'the walls of the pipes'],
      [water, 'the water itself'],
      [warmth, 'the warmth of the water'],
    ] as const
  )
    .filter(([share]) => share >= LEAST_SHARE)
    .toSorted(([a], [b]) => b - a)
    .map(([share, words]) => `${Math.round(share * 100)} % to ${words}`)
  return named.length === 0 ? '' : `Of what is lost on the way go ${named.join(', ')}.`
}

const LEAST_SHARE = 0.05

/** What the disinfectant that is left does, where it does anything. */
function dampingWords({ explained, place }: ExplainedSide): string[] {
  if (explained.network.chemistry.disinfectant === 'none' || explained.conditions.residualUnknown === true) return []
  const damped = 1 - residualDamping(place.residualMgPerL.mean)
  return damped < HALF ? [] : [`the disinfectant left damps it by ${Math.round(damped * 100)} %`]
}

const HALF = 0.5

/** How favourable it is, and what speaks for and against. */
export function sayGrowth({ side, say }: Saying): Sentence[] {
  const { growthIndex, hoursInGrowthBand, longestStagnationHours, temperatureC } = side.place
  const standing =
    longestStagnationHours >= FROM.standsFromHours.value || side.place.neverMoves === true
      ? [`it stands up to ${say.hours(longestStagnationHours)}`]
      : []
  const band =
    hoursInGrowthBand > 0
      ? [
          `it is between ${say.limit(GROWTH_BAND.from)} and ${say.limit(GROWTH_BAND.below)} for ${say.hours(hoursInGrowthBand)} of the day`,
        ]
      : []
  const against = [
    ...(hoursInGrowthBand === 0
      ? [
          temperatureC.min >= GROWTH_BAND.below
            ? 'it is always too hot'
            : `it is never between ${say.limit(GROWTH_BAND.from)} and ${say.limit(GROWTH_BAND.below)}`,
        ]
      : []),
    ...dampingWords(side),
  ]
  const halves = [
    ...(band.length + standing.length > 0 ? [`for it: ${[...band, ...standing].join(', ')}`] : []),
    ...(against.length > 0 ? [`against it: ${against.join(', ')}`] : []),
  ]
  const index = `Growth index ${growthIndex.toFixed(2)} of 1, a screening figure`
  return [{ about: 'growth', text: `${index}${halves.length === 0 ? '' : `; ${halves.join('; ')}`}.` }]
}
