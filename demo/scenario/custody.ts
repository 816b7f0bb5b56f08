import { sha256Of } from '@rillmark/casebook/chain/link.ts'
import { readLoggerCsv } from '@rillmark/exchange/custody/logger-csv.ts'
import { loggerEntries } from '@rillmark/exchange/custody/logger-entries.ts'
import { BRANDT, type DemoDesk, later, OKORO, VALE, wallTime } from '../desk.ts'

const SAMPLER = { name: 'T. Okoro', role: 'sampler' }
const COURIER = { name: 'J. Brandt', role: 'courier' }
const LOGGER = 'T-17'
const LABORATORY = 'Quillhaven Water Laboratory'

interface Sent {
  readonly code: string
  readonly at: string
  readonly box: string
  readonly seal: string
  readonly broken?: readonly string[]
  /** a logger lies in the box, and the courier accepts it on a phone of his own, which has joined */
  readonly watched?: boolean
}

/** Packs a round's samples into boxes, seals and hands them over; the laboratory receives them the same evening. */
export function packAndSend(desk: DemoDesk, round: Sent): void {
  const labels = [...desk.state.fieldwork.samples.values()]
    .filter(({ body }) => body.round === round.code)
    .map(({ body }) => body.label)
  const { box } = round
  desk.write(
    'consignment.opened',
    { consignment: box, container: 'cooler', transportC: { lower: 2, upper: 8 } },
    { at: round.at, by: OKORO },
  )
  for (const label of labels)
    desk.write('sample.packed', { consignment: box, label }, { at: later(round.at, 10), by: OKORO })
  desk.write(
    'temperature.logged',
    { consignment: box, temperatureC: 6.4, where: 'between the bottles' },
    { at: later(round.at, 20), by: OKORO },
  )
  desk.write(
    'consignment.sealed',
    { consignment: box, seal: round.seal, temperatureC: 5.9 },
    { at: later(round.at, 25), by: OKORO },
  )
  handOver(desk, round)
  desk.write(
    'consignment.received',
    {
      consignment: box,
      laboratory: LABORATORY,
      receivedBy: { name: 'M. Aydin', role: 'laboratory reception' },
      sealIntact: true,
      temperatureC: 6.1,
      samples: labels.map((label) => ({
        label,
        condition: round.broken?.includes(label) === true ? 'broken' : 'accepted',
      })),
    },
    { at: later(round.at, 190), by: VALE },
  )
  if (round.watched === true) readLogger(desk, round)
}

function handOver(desk: DemoDesk, { box, at, watched = false }: Sent): void {
  const given = { consignment: box, from: SAMPLER, to: COURIER, sealIntact: true, temperatureC: 5.6 } as const
  const signedBy = watched ? { signedBy: { way: 'device', device: BRANDT.device } as const } : {}
  const { id } = desk.write('consignment.handed-over', { ...given, ...signedBy }, { at: later(at, 40), by: OKORO })
  if (!watched) return
  const accepted = { consignment: box, handOver: id, by: COURIER, sealIntact: true, temperatureC: 5.6 }
  desk.write('consignment.accepted', accepted, { at: later(at, 42), by: BRANDT })
}

/** The logger is read at the laboratory, once the box was received: it ran from before the first bottle went in. */
function readLogger(desk: DemoDesk, { box, at }: Sent): void {
  const name = `${LOGGER}.csv`
  const csv = loggerFile(at)
  const read = readLoggerCsv(new TextEncoder().encode(csv), { offset: wallTime(at).offset })
  if (!read.ok) throw new Error(`The example’s logger file can’t be read: ${JSON.stringify(read.issues)}`)
  const about = { consignment: box, logger: LOGGER, file: { name, sha256: sha256Of(csv) } }
  for (const body of loggerEntries(read.readings, about))
    desk.write('temperature.logged', body, { at: later(at, 215), by: OKORO })
}

const EVERY_MIN = 5
const LOGGED_MIN = 205

/** The file as the logger writes it: bottles come in at room temperature, the ice takes over, and the box warms a little on the road. */
function loggerFile(at: string): string {
  const rows = Array.from({ length: LOGGED_MIN / EVERY_MIN + 1 }, (_, n) => {
    const minutes = n * EVERY_MIN
    const temperatureC = 4.1 + 2.4 * Math.exp(-Math.abs(minutes - 15) / 20) + minutes / 150
    return `${later(at, minutes).replace('T', ' ')},${temperatureC.toFixed(1)}`
  })
  return ['Time,Temperature (°C)', ...rows].join('\r\n')
}
