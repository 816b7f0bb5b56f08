import { type DemoDesk, later, OKORO, VALE } from '../desk.ts'

const SAMPLER = { name: 'T. Okoro', role: 'sampler' }
const COURIER = { name: 'J. Brandt', role: 'courier' }
const LABORATORY = 'Quillhaven Water Laboratory'

/** Packs a round's samples into boxes, seals and hands them over; the laboratory receives them the same evening. */
export function packAndSend(
  desk: DemoDesk,
  round: { code: string; at: string; box: string; seal: string; broken?: readonly string[] },
): void {
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
  desk.write(
    'consignment.handed-over',
    { consignment: box, from: SAMPLER, to: COURIER, sealIntact: true, temperatureC: 5.6 },
    { at: later(round.at, 40), by: OKORO },
  )
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
}
