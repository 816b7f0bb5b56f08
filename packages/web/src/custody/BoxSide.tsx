import type { ConsignmentView } from '@rillmark/casebook/custody/custody-view.ts'
import { traceWords } from '@rillmark/casebook/custody/trace-words.ts'
import { capital } from '@rillmark/casebook/units/capital.ts'
import { showRange } from '@rillmark/casebook/units/display.ts'
import { figureText } from '@rillmark/casebook/units/figure.ts'
import type { ReactNode } from 'react'
import { Disclosure } from '../kit/Disclosure.tsx'
import { Note } from '../kit/Note.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { BoxTemperature } from './BoxTable.tsx'
import { BoxPapers } from './BoxPapers.tsx'
import { ChainList } from './ChainList.tsx'
import { ReceiptByFile } from './ReceiptByFile.tsx'
import { ReceiptLinks } from './ReceiptLinks.tsx'
import { TraceChart } from './TraceChart.tsx'
import { holdTag } from './hold-words.ts'

/** Everything known of one box: who holds it, its clock, its temperature, its chain, its papers. */
export function BoxSide({ box }: { readonly box: ConsignmentView }): ReactNode {
  return (
    <>
      <h2>{box.code}</h2>
      <KeyValue
        facts={[
          { key: 'Held by', value: box.holder.name, note: box.holder.role },
          ...(box.waiting === undefined
            ? []
            : [{ key: 'Handed to', value: box.waiting.to.name, note: 'has not accepted yet' }]),
          { key: 'Seal', value: box.seal ?? 'none' },
          ...(box.laboratory === undefined ? [] : [{ key: 'Laboratory', value: box.laboratory }]),
          ...(box.next === undefined
            ? []
            : [
                {
                  key: 'First to run out',
                  value: holdTag(box.next).words,
                  note: <span className="nowrap">{box.next.label}</span>,
                },
              ]),
          { key: 'Temperature', value: <BoxTemperature box={box} /> },
        ]}
      />
      {box.doubts.map((doubt) => (
        <Note key={doubt} kind="warn">
          {capital(doubt)}.
        </Note>
      ))}
      <HoldSources box={box} />
      {box.temperature.traces.length > 0 && (
        <Section title="Temperature loggers">
          {box.temperature.traces.map((trace) => (
            <div key={trace.entries[0]} className="stack">
              <p>{traceWords(trace)}.</p>
              <TraceChart {...trace} range={box.temperature.range} />
            </div>
          ))}
        </Section>
      )}
      <Section title="Chain of custody">
        <ChainList chain={box.chain} />
      </Section>
      <Section title="Papers">
        <BoxPapers code={box.code} />
      </Section>
      <Section title="Receipt by the laboratory">
        <ReceiptLinks code={box.code} received={box.stage === 'received'} />
        {box.stage !== 'received' && box.samples.length > 0 && <ReceiptByFile box={box} />}
      </Section>
    </>
  )
}

function HoldSources({ box }: { readonly box: ConsignmentView }): ReactNode {
  const { units } = usePreferences()
  const hold = box.samples.find((sample) => sample.hold !== undefined)?.hold
  const { range } = box.temperature
  if (hold === undefined || range === undefined) return null
  const transport = showRange([range.lowestC, range.highestC], { unit: '°C', units })
  const others = [...hold.disagreeingHours, ...box.temperature.disagreeing]
  return (
    <Disclosure summary={`Hold time ${figureText(hold.hoursFigure)}, transport ${transport}: where from`}>
      <p>
        {figureText(hold.hoursFigure)}: {hold.hoursFigure.source}
        {hold.hoursFigure.note !== undefined && ` (${hold.hoursFigure.note})`}.
      </p>
      <p>
        {transport}: {range.source}.
      </p>
      {others.length > 0 && (
        <>
          <p>Others say:</p>
          <ul className="custody-others">
            {others.map((figure) => (
              <li key={`${figureText(figure)} ${figure.source}`}>
                <b>{figureText(figure, units)}</b> {figure.source}
                {figure.known === 'memory' && ' (from memory, verify before use)'}
              </li>
            ))}
          </ul>
        </>
      )}
      <p>{hold.meaning}</p>
    </Disclosure>
  )
}
