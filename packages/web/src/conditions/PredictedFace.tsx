import { predictedLayer } from '@rillmark/casebook/conditions/predicted-layer.ts'
import type { ShownQuantity, Side, WholeDay } from '@rillmark/casebook/conditions/shown-quantity.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { type ReactNode, useCallback, useDeferredValue, useEffect, useMemo, useRef, useState } from 'react'
import { RiserDiagram } from '../drawing/RiserDiagram.tsx'
import { Split } from '../kit/Split.tsx'
import { usePreferences } from '../store/preferences.tsx'
import './conditions.css'
import { PlacePanel } from './PlacePanel.tsx'
import { PredictedAside } from './PredictedAside.tsx'
import { PredictedBar } from './PredictedBar.tsx'
import { type ShownPrediction, usePrediction } from './use-prediction.ts'
import { useWhatIf } from './use-what-if.ts'

/** A part or pipes of the description, to go to. */
export type GoTo =
  | { readonly kind: 'part'; readonly id: string }
  | { readonly kind: 'pipes'; readonly ids: readonly string[] }

export interface PredictedFaceProps {
  readonly system: WaterSystem
  /** The part looked at on arrival. */
  readonly selected?: string | undefined
  /** Opens a part or pipes in the description. */
  readonly onGoTo: (goTo: GoTo) => void
}

/** What of the prediction lies on the drawing. */
export interface Looking {
  readonly quantity: ShownQuantity
  readonly side: Side
  /** The span of the day; undefined for the whole day. */
  readonly slot: number | undefined
  /** Which figure of the whole day. */
  readonly by: WholeDay
  /** With the changes that were tried, in place of the building as it is. */
  readonly changed: boolean
}

const AT_FIRST: Looking = { quantity: 'temperature', side: 'hot', slot: undefined, by: 'highest', changed: false }

/** The water as it is predicted: on the drawing by hour, ranked, place by place, and with something changed. */
export function PredictedFace({ system, selected, onGoTo }: PredictedFaceProps): ReactNode {
  const inHand = usePrediction(system)
  const { shown } = inHand
  const whatIf = useWhatIf(shown)
  const [looking, setLooking] = useState(AT_FIRST)
  const [place, setPlace] = useState(selected)
  const [lit, setLit] = useState<string>()
  const tried = whatIf?.changed?.prediction
  const drawn = looking.changed ? tried : undefined
  const layer = useLayer(drawn?.system ?? system, {
    shown: drawn ?? shown,
    looking: useDeferredValue(looking),
    changed: drawn !== undefined,
  })
  const highlight = useMemo(() => new Set(lit === undefined ? [] : [lit]), [lit])
  const there = place !== undefined && system.components.some(({ id }) => id === place) ? place : undefined
  const opened = shown === undefined ? undefined : there
  const look = useCallback((change: Partial<Looking>) => setLooking((now) => ({ ...now, ...change })), [])
  const aside = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (opened === undefined) return
    if (document.activeElement === document.body) aside.current?.focus({ preventScroll: true })
    if (matchMedia('(max-width: 1080px)').matches) aside.current?.scrollIntoView({ block: 'start' })
  }, [opened])
  return (
    <Split
      asideLabel="Predicted"
      asideFirstOnPhone={shown === undefined}
      aside={
        <div className="predicted-aside" ref={aside} tabIndex={-1}>
          {shown !== undefined && opened !== undefined ? (
            <PlacePanel
              key={opened}
              {...{ system, shown, onGoTo }}
              changed={whatIf?.changed}
              slot={looking.slot}
              id={opened}
              onClose={() => setPlace(undefined)}
            />
          ) : (
            <PredictedAside {...{ system, inHand, whatIf, onGoTo }} onPlace={setPlace} onHover={setLit} onLook={look} />
          )}
        </div>
      }
    >
      {shown !== undefined && (
        <PredictedBar looking={looking} onLook={setLooking} slots={shown.series?.slots} tried={tried !== undefined} />
      )}
      <RiserDiagram
        system={system}
        layer={layer}
        selected={opened}
        onSelect={setPlace}
        onSelectPipes={(ids) => onGoTo({ kind: 'pipes', ids })}
        highlight={highlight}
        onHover={setLit}
      />
    </Split>
  )
}

interface Laid {
  readonly shown: ShownPrediction | undefined
  readonly looking: Looking
  /** It is of the building with the changes that were tried. */
  readonly changed: boolean
}

function useLayer(system: WaterSystem, { shown, looking, changed }: Laid) {
  const { units } = usePreferences()
  return useMemo(() => {
    if (shown === undefined) return undefined
    const { conditions, series } = shown
    const layer = predictedLayer({ system, units, ...looking, conditions, series })
    return changed ? { ...layer, name: `${layer.name}, with the changes` } : layer
  }, [system, shown, looking, units, changed])
}
