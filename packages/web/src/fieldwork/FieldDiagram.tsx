import { readingLayer } from '@rillmark/casebook/findings/reading-layer.ts'
import { visitLayer } from '@rillmark/casebook/findings/visit-layer.ts'
import type { RoundProgress } from '@rillmark/casebook/fieldwork/round-progress.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { RiserDiagram } from '../drawing/RiserDiagram.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'

const LAYERS = [
  { id: 'stops', label: 'Stops' },
  { id: 'readings', label: 'Readings' },
] as const

/** The riser diagram beside the walk: what was taken where, or what was read. A place of a stop opens that stop. */
export function FieldDiagram(props: {
  readonly progress: RoundProgress
  readonly stop: string | undefined
  readonly onSelect: (stop: string) => void
}): ReactNode {
  const { progress } = props
  const { state, version } = useInvestigation()
  const { units } = usePreferences()
  const [layer, setLayer] = useState<(typeof LAYERS)[number]['id']>('stops')
  const { system } = state.building
  const laid = useMemo(
    () => (layer === 'stops' ? visitLayer(state) : readingLayer(state, units)),
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
    [version, layer, units],
  )
  if (system === undefined) return null
  const component = progress.stops.find(({ stop }) => stop.id === props.stop)?.stop.component
  const open = (id: string): void => {
    const found = progress.stops.find(({ stop }) => stop.component === id)
    if (found !== undefined) props.onSelect(found.stop.id)
  }
  return (
    <Tabs label="layer of the drawing" tabs={LAYERS} selected={layer} onSelect={setLayer}>
      <RiserDiagram system={system} layer={laid} selected={component} onSelect={open} />
    </Tabs>
  )
}
