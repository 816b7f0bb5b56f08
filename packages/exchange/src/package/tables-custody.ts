import { arrivalOf, isRejected } from '@rillmark/casebook/custody/arrival.ts'
import { chainLines } from '@rillmark/casebook/custody/chain-lines.ts'
import { happenedAt } from '@rillmark/casebook/custody/happened-at.ts'
import { entryId, flag, moment, number, type PackageTable, text } from './package-table.ts'

/** Custody as tables: what happened to each consignment, how each sample came, what was divided, what loggers kept. */
export const CUSTODY_TABLES: readonly PackageTable[] = [
  {
    name: 'custody',
    title: 'Chain of custody of every consignment',
    key: 'entry',
    fields: [
      text('consignment'),
      moment('at'),
      text('what'),
      text('givenBy'),
      text('givenByRole'),
      text('takenBy'),
      text('takenByRole'),
      flag('sealIntact'),
      number('temperatureC'),
      text('signed'),
      text('picture'),
      text('notes'),
      entryId,
    ],
    rows: ({ custody }) =>
      [...custody.consignments.values()].flatMap((box) =>
        chainLines(box).map(({ at, what, from, to, sealIntact, temperatureC, signed, picture, notes, entry }) => [
          box.code,
          at,
          what,
          from?.name,
          from?.role,
          to?.name,
          to?.role,
          sealIntact,
          temperatureC,
          signed,
          picture,
          notes,
          entry,
        ]),
      ),
  },
  {
    name: 'arrivals',
    title: 'How each sample reached the laboratory',
    key: 'label',
    fields: [
      text('label'),
      text('consignment'),
      text('laboratory'),
      moment('received'),
      text('condition'),
      flag('rejected'),
      text('notes'),
      entryId,
    ],
    rows: ({ custody }) =>
      [...custody.consignments.values()].flatMap(({ code, labels, received }) =>
        [...labels].map((label) => {
          const arrival = arrivalOf(custody, label)
          return [
            label,
            code,
            received?.body.laboratory,
            received === undefined ? undefined : happenedAt(received),
            arrival?.condition,
            arrival === undefined ? undefined : isRejected(arrival),
            arrival?.notes,
            received?.id,
          ]
        }),
      ),
  },
  {
    name: 'splits',
    title: 'Parts of samples divided for others',
    key: 'split',
    fields: [
      text('split'),
      text('label'),
      number('volumeMl'),
      text('to'),
      text('toRole'),
      text('purpose'),
      moment('at'),
      text('consignment'),
      entryId,
    ],
    rows: ({ custody }) =>
      [...custody.splits.values()].map((entry) => {
        const { split, label, volumeMl, to, purpose } = entry.body
        return [
          split,
          label,
          volumeMl,
          to.name,
          to.role,
          purpose,
          happenedAt(entry),
          custody.consignmentOf.get(split),
          entry.id,
        ]
      }),
  },
  {
    name: 'transport-temperatures',
    title: 'What temperature loggers kept of each consignment',
    key: 'reading',
    fields: [text('reading'), text('consignment'), text('logger'), moment('at'), number('temperatureC'), entryId],
    rows: ({ custody }) =>
      [...custody.consignments.values()].flatMap(({ code, events }) =>
        events.flatMap((event) => {
          const series = event.kind === 'temperature.logged' ? event.body.series : undefined
          if (series === undefined) return []
          const startMs = Date.parse(series.startedAt)
          return series.seconds.map((seconds, index) => [
            `${event.id}/${index + 1}`,
            code,
            series.logger,
            new Date(startMs + seconds * 1000).toISOString(),
            series.temperatureC[index],
            event.id,
          ])
        }),
      ),
  },
]
