import { floorWords } from '@rillmark/casebook/building/floor-words.ts'
import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import type { Stop } from '@rillmark/casebook/plan/plan-file.ts'
import { memo, type ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { useInvestigation } from '../store/investigation.tsx'

export interface Pointing {
  readonly selected: string | undefined
  readonly onSelect: (component: string) => void
  readonly lit: string | undefined
  readonly onHover: (component: string | undefined) => void
}

export interface StopLine {
  readonly stop: Stop
  /** number in walking order; none for a point that is not in the plan */
  readonly number?: number | undefined
  /** what leaving it out costs, or what it would bring */
  readonly remark?: string | undefined
}

export interface StopListProps extends Pointing {
  readonly label: string
  readonly lines: readonly StopLine[]
  readonly act?: { readonly words: string; readonly onPress: (stop: Stop) => void } | undefined
  readonly empty: string
}

/** Points one below the other: number, place, samples, every reason. */
export const StopList = memo(function StopList(props: StopListProps): ReactNode {
  if (props.lines.length === 0) return <p className="quiet">{props.empty}</p>
  return (
    <ol className="stops" aria-label={props.label}>
      {props.lines.map((line) => (
        <StopItem key={line.stop.id} line={line} list={props} />
      ))}
    </ol>
  )
})

function StopItem({ line, list }: { readonly line: StopLine; readonly list: StopListProps }): ReactNode {
  const { stop, number, remark } = line
  const { component } = stop
  const { floors } = useInvestigation().state.building.system ?? {}
  const place = [
    stop.floor === undefined ? '' : floorWords(floors, stop.floor),
    stop.riser === undefined ? '' : `riser ${stop.riser}`,
  ].filter((part) => part !== '')
  const hover =
    component === undefined
      ? {}
      : { onPointerEnter: () => list.onHover(component), onPointerLeave: () => list.onHover(undefined) }
  return (
    <li
      className="stop"
      data-selected={component !== undefined && component === list.selected ? true : undefined}
      data-lit={component !== undefined && component === list.lit ? true : undefined}
      {...hover}
    >
      <span className="stop-number mono">{number ?? ''}</span>
      <div className="stop-body">
        <p className="stop-head">
          {component === undefined ? (
            <b>{stop.title}</b>
          ) : (
            <button type="button" className="stop-title" onClick={() => list.onSelect(component)}>
              {stop.title}
            </button>
          )}
          <span className="quiet">{place.join(' · ')}</span>
          {stop.team !== undefined && stop.team > 1 && <span className="faint">team {stop.team}</span>}
        </p>
        <p className="stop-samples">
          {stop.samples.map(({ sampleKind, label }, at) => (
            <span key={`${sampleKind}-${at}`}>
              {label !== undefined && <span className="mono">{label} </span>}
              {SAMPLE_KIND_WORDS[sampleKind]}
            </span>
          ))}
          <span className="faint">{Math.round(stop.minutes)} min</span>
        </p>
        {stop.reasons.map(({ text, obligation }) => (
          <p key={text} className="stop-why">
            {!text.toLowerCase().startsWith(obligation) && <span className="stop-obligation">{obligation}. </span>}
            {text}
          </p>
        ))}
        {remark !== undefined && <p className="stop-remark">{remark}</p>}
      </div>
      {list.act !== undefined && component !== undefined && (
        <Button kind="text" name={`${list.act.words}: ${stop.title}`} onPress={() => list.act?.onPress(stop)}>
          {list.act.words}
        </Button>
      )}
    </li>
  )
}
