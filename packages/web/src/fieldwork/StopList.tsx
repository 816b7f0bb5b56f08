import { type FloorNames, floorWords } from '@rillmark/casebook/building/floor-words.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import {
  isElsewhere,
  isFinished,
  type RoundProgress,
  type StopProgress,
} from '@rillmark/casebook/fieldwork/round-progress.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import type { MarkShape } from '../kit/Mark.tsx'
import { Meter } from '../kit/Meter.tsx'
import { Tag } from '../kit/Tag.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { handWords } from './hand-words.ts'

const LOOK: Readonly<
  Record<StopProgress['state'], { shape: MarkShape; kind: 'accent' | 'warn' | 'faint' | 'plain'; words: string }>
> = {
  ahead: { shape: 'open', kind: 'faint', words: 'ahead' },
  begun: { shape: 'half', kind: 'accent', words: 'begun' },
  sampled: { shape: 'check', kind: 'accent', words: 'sampled' },
  partly: { shape: 'half', kind: 'warn', words: 'partly' },
  'not possible': { shape: 'cross', kind: 'warn', words: 'not possible' },
}

/** The stops of a round in walking order, and where to go next. */
export function StopList(props: {
  readonly progress: RoundProgress
  readonly selected: string | undefined
  readonly onSelect: (stop: string) => void
}): ReactNode {
  const { progress, selected, onSelect } = props
  const { stops, next, finished, sampled, notPossible, collected, planned } = progress
  const { device, state } = useInvestigation()
  const { floors } = state.building.system ?? {}
  const given = notPossible === 0 ? '' : ` (${notPossible} not possible)`
  return (
    <div className="stack">
      <Meter
        label={`Stops of ${progress.round}`}
        fraction={stops.length === 0 ? 0 : finished / stops.length}
        text={`${sampled} of ${stops.length} stops${given}, ${collected} of ${planned} samples`}
      />
      {next !== undefined && next.stop.id !== selected && (
        <Button kind="primary" size="big" onPress={() => onSelect(next.stop.id)}>
          {next.state === 'begun' ? 'Go on at' : 'Next'}: {next.stop.title}
        </Button>
      )}
      <ol className="field-stops">
        {stops.map((one) => (
          <li key={one.stop.id}>
            <button
              type="button"
              className="field-stop"
              aria-current={one.stop.id === selected || undefined}
              onClick={() => onSelect(one.stop.id)}
            >
              <span className="field-stop-number">{one.position}</span>
              <span className="field-stop-words">
                {one.stop.title}
                <span className="faint">{detail(one, floors)}</span>
                {isElsewhere(one, device) && one.atWork !== undefined && (
                  <span className="field-elsewhere">{handWords(one.atWork)} is there</span>
                )}
              </span>
              <Tag shape={LOOK[one.state].shape} kind={LOOK[one.state].kind}>
                {LOOK[one.state].words}
              </Tag>
            </button>
          </li>
        ))}
      </ol>
    </div>
  )
}

function detail(
  { stop, collected, planned, deviations, addedBecause, state }: StopProgress,
  floors: FloorNames,
): string {
  const place = [
    stop.floor === undefined ? undefined : floorWords(floors, stop.floor),
    stop.riser === undefined ? undefined : `riser ${stop.riser}`,
  ]
  const samples =
    planned === 0
      ? 'readings'
      : isFinished(state) || state === 'begun'
        ? `${collected} of ${planned} samples`
        : planned === 1
          ? '1 sample'
          : `${planned} samples`
  const more = [
    addedBecause === undefined ? undefined : 'added on the spot',
    deviations === 0 ? undefined : counted(deviations, 'deviation'),
  ]
  return [...place, samples, ...more].filter((part) => part !== undefined).join(' · ')
}
