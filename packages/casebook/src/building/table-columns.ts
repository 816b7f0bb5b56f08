import type { Component, Provenance, Use } from './water-system.ts'

export type TableName = 'components' | 'pipes'

export interface Column {
  name: string
  type: 'text' | 'number' | 'whole' | 'provenance' | 'draws'
  /** Other headings people use, without spaces, signs and capitals. */
  also?: readonly string[]
}

const text = (name: string, ...also: string[]): Column => ({ name, type: 'text', also })
const number = (name: string, ...also: string[]): Column => ({ name, type: 'number', also })

/** The columns of the table of outlets and other components. Their uses are spread over `pattern` and what follows. */
const COMPONENT_COLUMNS: readonly Column[] = [
  text('id', 'outlet', 'component', 'outletid'),
  text('kind', 'type', 'outlettype'),
  { name: 'floor', type: 'whole', also: ['level', 'storey'] },
  text('riser', 'stack'),
  text('room', 'roomnumber'),
  text('zone', 'wing', 'ward'),
  text('label', 'name'),
  number('volumeL', 'volume'),
  number('setpointC', 'setpoint'),
  text('pattern', 'use', 'usepattern'),
  number('eventsPerDay', 'usesperday'),
  number('minutes', 'minutesperuse'),
  number('flowLPerMin', 'flow'),
  number('mixToC', 'mixedto'),
  { name: 'draws', type: 'draws' },
  number('heatLossWPerK'),
  number('ambientC', 'ambient'),
  { name: 'provenance', type: 'provenance', also: ['knownby'] },
  text('notes', 'note', 'remarks'),
]

/** The columns of the table of pipes. */
const PIPE_COLUMNS: readonly Column[] = [
  text('id', 'pipe', 'pipeid'),
  text('from'),
  text('to'),
  text('circuit', 'water'),
  number('lengthM', 'length'),
  number('boreMm', 'bore', 'insidediametermm'),
  number('outsideDiameterMm', 'outsidediameter'),
  text('standard'),
  text('size'),
  number('insulationMm', 'insulation'),
  number('insulationConductivityWPerMK'),
  number('ambientC', 'ambient'),
  number('recirculationLPerMin', 'recirculation'),
  number('roughnessMm', 'roughness'),
  text('label', 'name'),
  { name: 'provenance', type: 'provenance', also: ['knownby'] },
  text('notes', 'note', 'remarks'),
]

export const columnsOf = (table: TableName): readonly Column[] =>
  table === 'components' ? COMPONENT_COLUMNS : PIPE_COLUMNS

const bare = (heading: string): string => heading.toLowerCase().replaceAll(/[^\p{L}\p{N}]/gu, '')

/** The column a heading means, whatever its capitals, spaces and signs. */
export function columnFor(table: TableName, heading: string): Column | undefined {
  const wanted = bare(heading)
  const columns = columnsOf(table)
  return columns.find((one) => bare(one.name) === wanted) ?? columns.find((one) => one.also?.includes(wanted) === true)
}

const USE_FIELDS = ['eventsPerDay', 'minutes', 'flowLPerMin', 'mixToC', 'draws'] as const

/** A component as it is described, from the flat fields of its row. */
export function nestUse(flat: Record<string, unknown>): Record<string, unknown> {
  const { pattern, ...rest } = flat
  if (pattern === undefined) return rest
  const use: Record<string, unknown> = { pattern }
  for (const field of USE_FIELDS) {
    if (rest[field] === undefined) continue
    use[field] = rest[field]
    delete rest[field]
  }
  return { ...rest, use }
}

/** The flat fields of a component for its row. */
export function flattenUse({ use, ...rest }: Component): Record<string, unknown> {
  return use === undefined ? rest : { ...rest, ...use }
}

/** `told; volumeL=seen`: the word for all facts, then the ones that differ. */
export function provenanceText(provenance: Provenance | undefined): string | undefined {
  if (provenance === undefined) return undefined
  const { default: all, ...facts } = provenance
  const differing = Object.entries(facts).map(([fact, known]) => `${fact}=${known}`)
  return [...(all === undefined ? [] : [all]), ...differing].join('; ')
}

/** Reads `told; volumeL=seen`; words that are none of seen, told, drawn, guessed are kept for the schema to refuse. */
export function provenanceFrom(text: string): Record<string, string> {
  const parts = text.split(/[;,]/).map((part) => part.trim())
  return Object.fromEntries(
    parts.filter(Boolean).map((part) => {
      const [fact = '', known] = part.split('=').map((side) => side.trim())
      return known === undefined ? ['default', fact.toLowerCase()] : [fact, known.toLowerCase()]
    }),
  )
}

type Draws = Extract<Use, { pattern: 'schedule' }>['draws']

/** `07:30 10 min 9 L/min 38 C; …` */
export const drawsText = (draws: Draws): string =>
  draws
    .map(({ at, minutes, flowLPerMin, mixToC }) => {
      const mix = mixToC === undefined ? '' : ` ${mixToC} C`
      return `${at} ${minutes} min ${flowLPerMin} L/min${mix}`
    })
    .join('; ')

/** Reads draws as `drawsText` writes them, with a decimal point or comma; undefined where the text is something else. */
export function drawsFrom(text: string): Draws | undefined {
  const draws = text
    .split(';')
    .map((part) => DRAW.exec(part.trim().replaceAll(',', '.')))
    .map((match) => match?.groups)
  const read = draws.map((groups) => {
    if (groups === undefined) return undefined
    const { at = '', minutes, flow, mix } = groups
    const draw = { at: at.padStart(5, '0'), minutes: Number(minutes), flowLPerMin: Number(flow) }
    return mix === undefined ? draw : { ...draw, mixToC: Number(mix) }
  })
  return read.every((draw) => draw !== undefined) ? read : undefined
}

const DRAW = /^(?<at>\d{1,2}:\d{2}) +(?<minutes>[\d.]+) *min +(?<flow>[\d.]+) *L\/min(?: +(?<mix>[\d.]+) *°?C)?$/i
