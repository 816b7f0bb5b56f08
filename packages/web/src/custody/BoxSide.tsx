import type { ConsignmentView } from '@rillmark/casebook/custody/custody-view.ts'
import { showRange } from '@rillmark/casebook/units/display.ts'
import { figureText } from '@rillmark/casebook/units/figure.ts'
import type { ReactNode } from 'react'
import { Disclosure } from '../kit/Disclosure.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { BoxTemperature } from './BoxTable.tsx'
import { BoxPapers } from './BoxPapers.tsx'
import { ChainList } from './ChainList.tsx'
import { holdTag } from './hold-words.ts'

/** Everything known of one box: who holds it, its clock, its temperature, its chain, its papers. */
export function BoxSide({ box }: { readonly box: ConsignmentView }): ReactNode {
  return (
    <>
      <h2>{box.code}</h2>
      <KeyValue
        facts={[
          { key: 'Held by', value: box.holder.name, note: box.holder.role },
          { key: 'Seal', value: box.seal ?? 'none' },
          ...(box.laboratory === undefined ? [] : [{ key: 'Laboratory', value: box.laboratory }]),
          ...(box.next === undefined
            ? []
            : [{ key: 'First to run out', value: holdTag(box.next).words, note: box.next.label }]),
          { key: 'Temperature', value: <BoxTemperature box={box} /> },
        ]}
      />
      <HoldSources box={box} />
      <Section title="Chain of custody">
        <ChainList chain={box.chain} />
      </Section>
      <Section title="Papers">
        <BoxPapers code={box.code} />
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
