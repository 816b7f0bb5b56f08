import { componentName } from '@rillmark/casebook/building/labels.ts'
import { isOutlet, type WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { showReckoned } from '@rillmark/casebook/units/display.ts'
import { capital } from '@rillmark/casebook/units/capital.ts'
import { type ReactNode, useMemo } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { Note } from '../kit/Note.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { AgainstTable } from './AgainstTable.tsx'
import { BandHours } from './BandHours.tsx'
import { chartedOf } from './charted.ts'
import { DayChart } from './DayChart.tsx'
import { DayTable } from './DayTable.tsx'
import { placeLine } from './place-line.ts'
import { waterLines } from './place-lines.ts'
import { PlaceFigures } from './PlaceFigures.tsx'
import type { GoTo } from './PredictedFace.tsx'
import type { ShownPrediction } from './use-prediction.ts'
import type { ChangedDay } from './use-what-if.ts'
import { WhatIfHere } from './WhatIfHere.tsx'
import { WhyHere } from './WhyHere.tsx'

export interface PlacePanelProps {
  readonly system: WaterSystem
  readonly shown: ShownPrediction
  readonly id: string
  /** The span of the day looked at on the drawing. */
  readonly slot: number | undefined
  /** What was tried with something changed. */
  readonly changed: ChangedDay | undefined
  readonly onGoTo: (goTo: GoTo) => void
  readonly onClose: () => void
}

/** One place: what the water is there over the day, why, and how that compares with what was read. */
export function PlacePanel(props: PlacePanelProps): ReactNode {
  const { system, shown, id, slot, changed, onGoTo, onClose } = props
  const part = system.components.find((one) => one.id === id)
  const lines = useMemo(() => (part === undefined ? [] : waterLines(part, shown)), [part, shown])
  if (part === undefined) return null
  const name = componentName(part)
  const found = shown.conditions.components[id]
  return (
    <>
      <div>
        <Button kind="text" onPress={onClose}>
          Back to the ranking
        </Button>
        <PageHead title={capital(name)} name={`${name} · Predicted`} lead={placeLine(part, system)} />
      </div>
      {found === undefined || lines.length === 0 ? (
        <Note>Nothing was predicted here{shown.stale ? ': it was described after the prediction was made' : ''}.</Note>
      ) : (
        <>
          <PlaceFigures lines={lines} residualUnknown={shown.conditions.residualUnknown === true} />
          {isOutlet(part) && <Drawn found={found} />}
          {changed !== undefined && <WhatIfHere changed={changed} id={id} />}
          {shown.from === 'run' && <WhyHere shown={shown} id={id} onGoTo={onGoTo} />}
          {shown.series !== undefined && (
            <Section title="Over the day" aside={<LineKey lines={lines} />}>
              {chartedOf(shown.conditions).map((quantity) => (
                <DayChart
                  key={quantity}
                  quantity={quantity}
                  lines={lines}
                  slots={shown.series?.slots ?? 1}
                  slot={slot}
                />
              ))}
              <DayTable lines={lines} quantities={chartedOf(shown.conditions)} />
            </Section>
          )}
          <BandHours lines={lines} />
          <AgainstTable system={system} shown={shown} component={id} />
        </>
      )}
      <ButtonRow>
        <Button onPress={() => onGoTo({ kind: 'part', id })}>What is described of it</Button>
      </ButtonRow>
    </>
  )
}

function Drawn({ found }: { readonly found: ShownPrediction['conditions']['components'][string] }): ReactNode {
  const { units } = usePreferences()
  const { drawnLPerDay, minutesBelowUse = 0 } = found
  if (drawnLPerDay === undefined) return null
  const facts = [{ key: 'Drawn a day', value: showReckoned(drawnLPerDay, { unit: 'L', units, digits: 3 }).words }]
  if (minutesBelowUse > 0)
    facts.push({ key: 'Drawn colder than wanted', value: `${Number(minutesBelowUse.toPrecision(2))} min a day` })
  return <KeyValue facts={facts} />
}

/** Which line is which: weight tells beside colour. */
function LineKey({ lines }: { readonly lines: ReturnType<typeof waterLines> }): ReactNode {
  return (
    <ul className="line-key" aria-label="Lines of the charts">
      {lines.map(({ side, words }) => (
        <li key={words}>
          <svg width="22" height="8" aria-hidden="true">
            <path className="day-line" data-side={side} d="M0 4H22" />
          </svg>
          {words}
        </li>
      ))}
      {lines.some(({ flow }) => flow !== undefined) && <li>strokes below: water runs</li>}
    </ul>
  )
}
