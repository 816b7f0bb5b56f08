import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { provenanceLayer } from '@rillmark/casebook/drawing/provenance-layer.ts'
import { readingLayer } from '@rillmark/casebook/findings/reading-layer.ts'
import { resultLayer } from '@rillmark/casebook/findings/result-layer.ts'
import type { SampleRow } from '@rillmark/casebook/findings/sample-rows.ts'
import { visitLayer } from '@rillmark/casebook/findings/visit-layer.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { RiserDiagram } from '../drawing/RiserDiagram.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'

const FACES = [
  { id: 'described', label: 'As described' },
  { id: 'plan', label: 'Plan' },
  { id: 'readings', label: 'Readings' },
  { id: 'results', label: 'Results' },
] as const
type Face = (typeof FACES)[number]['id']

interface DrawingProps {
  readonly system: WaterSystem
  readonly rows: readonly SampleRow[]
  readonly selected: string | undefined
  readonly lit: ReadonlySet<string>
  readonly onSelect: (component: string) => void
}

/** The riser diagram with one kind of knowledge on it at a time. */
export function FindingsDrawing({ system, rows, selected, lit, onSelect }: DrawingProps): ReactNode {
  const { state, version } = useInvestigation()
  const { units } = usePreferences()
  const [face, setFace] = useState<Face>('results')
  const layer = useMemo(() => {
    if (face === 'described') return provenanceLayer(system)
    if (face === 'plan') return visitLayer(state)
    return face === 'results' ? resultLayer(rows, units) : readingLayer(state, units)
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  }, [face, rows, system, units, version])
  return (
    <Tabs label="layer of the drawing" tabs={FACES} selected={face} onSelect={setFace}>
      <RiserDiagram system={system} layer={layer} selected={selected} onSelect={onSelect} highlight={lit} />
    </Tabs>
  )
}
