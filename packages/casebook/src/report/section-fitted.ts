import type { AcceptedFit } from '../calibration/accepted-fit.ts'
import { latestFit } from '../calibration/fit-in-use.ts'
import { rangedWords } from '../calibration/fit-words.ts'
import { counted } from '../units/counted.ts'
import type { ReportContext } from './context.ts'
import type { Block, Row, Section } from './model.ts'
import { column, listed, numberColumn, table, told } from './words.ts'

const CAUTION =
  'Fitted, not measured: values at which a screening model agrees best with the readings. A range covers the inputs that were fitted, not what the model leaves out.'

/** The fitted values that were taken over, each with its range, and from which readings; undefined where none were. */
export function fittedSection(context: ReportContext): Section | undefined {
  const { state, numbersOf, said } = context
  const latest = latestFit(state)
  if (latest === undefined) return undefined
  const { body } = latest.entry
  const entries = numbersOf(latest.entry)
  return {
    id: 'fitted',
    title: 'The building as fitted to readings',
    blocks: [
      told(CAUTION, { entries }),
      told(fromReadings(body), { entries }),
      ...(latest.stale
        ? [
            told(
              'The description of the building changed after these values were taken over: predictions no longer take them.',
              { entries },
            ),
          ]
        : []),
      ...givenBlocks(context, { body, entries }),
      valuesTable(context, { body, entries }),
      ...(body.note === undefined ? [] : [told(`Note: ${said(body.note)}`, { entries })]),
    ],
  }
}

function fromReadings({ round, readings, unexplained }: AcceptedFit): string {
  const left = unexplained === 0 ? 'all of them explained' : `${unexplained} of them not explained`
  return `From ${counted(readings, 'reading')} of round ${round}, ${left}.`
}

interface Told {
  readonly body: AcceptedFit
  readonly entries: number[]
}

/** What the values rest on that nobody has seen yet. */
function givenBlocks({ redacted, place, units }: ReportContext, { body, entries }: Told): Block[] {
  if (body.found.length === 0) return []
  const items = body.found.map(({ kind, words, parts, size }) => {
    const told = redacted ? `${kind}: ${listed(parts.map(place))}` : words
    const much = size === undefined ? '' : ` ${size.words}: ${rangedWords(size, { unit: size.unit, units })}.`
    return { text: `${told}${much}`, entries }
  })
  return [
    told('Taken as given, because it explains the readings; worked out, not seen on site:', { entries }),
    { block: 'list', items },
  ]
}

function valuesTable({ units, redacted, place }: ReportContext, { body, entries }: Told): Block {
  const rows = body.inputs.map(({ words, unit, parts, believed, fitted }): Row => {
    const [only, ...more] = parts
    return {
      cells: [
        redacted && only !== undefined && more.length === 0 ? `${words.split(' of ')[0]} of ${place(only)}` : words,
        rangedWords(believed, { unit, units }),
        rangedWords(fitted, { unit, units }),
      ],
      entries,
    }
  })
  return table({
    caption: `Fitted values with ${Math.round(body.level * 100)} % ranges, from readings of round ${body.round}`,
    columns: [column('Input', 3), numberColumn('Believed before', 2), numberColumn('Fitted', 2)],
    rows,
    none: '',
  })
}
