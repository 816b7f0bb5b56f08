import { DEVICES_TO_SWEEP, sweepStanding } from '../building/devices.ts'
import { isOutlet, KNOWN_BY, type WaterSystem } from '../building/water-system.ts'
import { countKnown } from '../building/weakest-known.ts'
import { kindWord } from '../building/labels.ts'
import { counted } from '../units/counted.ts'
import { showTemperature } from '../units/display.ts'
import type { ReportContext } from './context.ts'
import { diagramBlock } from './diagram.ts'
import type { Block, Row, Section } from './model.ts'
import { column, heading, listed, table, told } from './words.ts'
import { capital } from '../units/capital.ts'

export function buildingSection(context: ReportContext): Section {
  const { system } = context.state.building
  const described: Block[] =
    system === undefined ? [told('The building’s water has not been described.')] : descriptionBlocks(context, system)
  const blocks = [
    ...described,
    heading('What wets air'),
    ...sweepBlocks(context),
    heading('What happened before'),
    historyTable(context),
    ...diagramBlock(context),
  ]
  return { id: 'building', title: 'Building and its water', blocks }
}

function descriptionBlocks({ state, numbersOf, said, units }: ReportContext, system: WaterSystem): Block[] {
  const { described } = state.building
  const { disinfectant, temperatureC, pH } = system.supply
  const outlets = system.components.filter(isOutlet)
  const floors = new Set(outlets.flatMap(({ floor }) => floor ?? []))
  const risers = new Set(outlets.flatMap(({ riser }) => riser ?? []))
  const plant = system.components.filter(({ kind }) => PLANT_TOLD.has(kind))
  const residual =
    disinfectant.residualMgPerL === undefined
      ? 'residual not stated'
      : `${disinfectant.residualMgPerL} mg/L as described`
  const edits = state.record.entries.flatMap((entry, index) => (entry.kind === 'building.edited' ? [index + 1] : []))
  return [
    {
      block: 'facts',
      facts: [
        { name: 'Name', text: said(system.name) },
        { name: 'Described by', text: described?.body.source ?? 'file', entries: numbersOf(described) },
        ...(edits.length === 0 ? [] : [{ name: 'Edited since', text: counted(edits.length, 'time'), entries: edits }]),
        {
          name: 'Size',
          text: `${counted(outlets.length, { one: 'outlet and device', many: 'outlets and devices' })} on ${counted(floors.size, 'floor')} and ${counted(risers.size, 'riser')}; ${counted(system.pipes.length, 'pipe')}.`,
        },
        { name: 'Outlets', text: `${capital(listed(kindCounts(outlets)))}.` },
        { name: 'Plant', text: plant.length === 0 ? 'None described.' : `${capital(listed(kindCounts(plant)))}.` },
        {
          name: 'Supply',
          text: `${disinfectant.kind.replace('-', ' ')}, ${residual}${temperatureC === undefined ? '' : `; ${showTemperature(temperatureC, units).words}`}${pH === undefined ? '' : `; pH ${pH}`}.`,
        },
        { name: 'How known', text: knownWords(system) },
      ],
    },
  ]
}

const PLANT_TOLD: ReadonlySet<string> = new Set([
  'supply-entry',
  'treatment',
  'cold-tank',
  'storage-heater',
  'instant-heater',
  'mixing-valve',
  'pump',
])

function kindCounts(components: WaterSystem['components']): string[] {
  const counts = new Map<string, number>()
  for (const { kind } of components) counts.set(kindWord(kind), (counts.get(kindWord(kind)) ?? 0) + 1)
  return [...counts].map(([word, count]) => `${count} × ${word}`)
}

/** Facts by how they are known: a report that rests on guesses says how many. */
export function knownWords(system: WaterSystem): string {
  const counts = countKnown([...system.components, ...system.pipes, system.supply])
  const parts = KNOWN_BY.flatMap((known) => (counts.has(known) ? [`${counts.get(known)} ${known}`] : []))
  const silent = counts.get(undefined) ?? 0
  const total = [...counts.values()].reduce((sum, count) => sum + count, 0)
  return `Of ${total} facts: ${listed([...parts, ...(silent === 0 ? [] : [`${silent} not said how known`])])}.`
}

/** What was answered as a table; what nobody looked at in one line, since no answer is an answer too. */
function sweepBlocks(context: ReportContext): Block[] {
  const { state, numbersOf, said } = context
  const answers = new Map([...state.building.sweep].map(([device, { body }]) => [device, body.state]))
  const known = new Set(DEVICES_TO_SWEEP.map(({ id }) => id))
  const own = [...answers].filter(([id]) => !known.has(id)).map(([id, answer]) => ({ id, name: id, answer }))
  const lines = [
    ...sweepStanding(answers).map(({ device, answer }) => ({ id: device.id, name: device.name, answer })),
    ...own,
  ]
  const open = lines.filter(({ answer }) => answer === 'not looked at')
  return [
    table({
      caption: 'Sweep of everything that stores, warms or sprays water',
      columns: [column('Device', 2.4), column('Answer', 1.2), column('Where, or what was said', 3)],
      rows: lines.filter(({ id }) => answers.has(id)).map((line) => sweepRow(context, line)),
      none: 'Nobody has looked for devices yet.',
    }),
    ...(open.length === 0
      ? []
      : [
          told(
            `Not looked at, which is no absence (${open.length}): ${listed(open.map(({ name }) => said(lowered(name))))}.`,
            {
              entries: numbersOf(...open.map(({ id }) => state.building.sweep.get(id))),
            },
          ),
        ]),
  ]
}

const lowered = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1)

function sweepRow(
  { state, numbersOf, said, place }: ReportContext,
  line: { id: string; name: string; answer: string },
): Row {
  const entry = state.building.sweep.get(line.id)
  const where = entry?.body.component === undefined ? undefined : place(entry.body.component)
  const words = [where, entry?.body.place, entry?.body.notes].flatMap((one) => one ?? [])
  return {
    cells: [
      capital(said(line.name)),
      { text: line.answer, strong: line.answer === 'present' },
      words.map(said).join('; '),
    ],
    entries: numbersOf(entry),
  }
}

function historyTable({ state, numbersOf, said, place }: ReportContext): Block {
  const rows: Row[] = [...state.building.history]
    .sort((a, b) => (a.body.on < b.body.on ? -1 : 1))
    .map((entry) => {
      const { on, until, what, components, text } = entry.body
      const where =
        components.length === 0
          ? 'whole building'
          : components.length > MOST_NAMED
            ? counted(components.length, 'place')
            : components.map(place).join(', ')
      return {
        cells: [until === undefined ? on : `${on} to ${until}`, what, where, said(text)],
        entries: numbersOf(entry),
      }
    })
  return table({
    caption: 'Events in the building',
    columns: [column('When', 1.5), column('What', 1.1), column('Where', 1.7), column('Said', 3.4)],
    rows,
    none: 'No event in the building is recorded.',
  })
}

const MOST_NAMED = 4
