import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { grid, marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import { isOutlet } from '@rillmark/casebook/building/water-system.ts'
import type { Layer, Mark } from '@rillmark/casebook/drawing/layers.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Split } from '../kit/Split.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import { RiserDiagram } from '../drawing/RiserDiagram.tsx'
import { PlainShell } from '../shell/PlainShell.tsx'

const TABS = [
  { id: 'plain', label: 'As described' },
  { id: 'results', label: 'Results' },
  { id: 'large', label: '2,000 outlets' },
] as const

const small = buildSystem(marramHouse)
const outlets = small.components.filter(isOutlet)

/** Invented marks: every ninth outlet, more of them on riser C. */
function markOf(index: number, riser: string | undefined): Pick<Mark, 'form' | 'tone' | 'text' | 'label'> | undefined {
  if (riser === 'C' && index % 3 === 0)
    return { form: 'disc', tone: 'bad', text: String(3 + index), label: `detected, ${3 + index} CFU/mL` }
  if (index % 9 === 0) return { form: 'ring', tone: 'plain', label: 'not detected' }
  return index % 17 === 0 ? { form: 'dashed-ring', tone: 'plain', label: 'waiting' } : undefined
}

const RESULTS: Layer = {
  name: 'Results',
  marks: outlets.flatMap((outlet, index) => {
    const mark = markOf(index, outlet.riser)
    return mark === undefined ? [] : [{ component: outlet.id, ...mark }]
  }),
  legend: [
    { form: 'disc', tone: 'bad', text: 'detected, CFU/mL beside it' },
    { form: 'ring', tone: 'plain', text: 'not detected' },
    { form: 'dashed-ring', tone: 'plain', text: 'waiting' },
  ],
}

/** The riser diagram in use, in development only. */
export function DrawingGallery(): ReactNode {
  const [tab, setTab] = useState<(typeof TABS)[number]['id']>('results')
  const [selected, setSelected] = useState<string | undefined>(outlets[30]?.id)
  const [lit, setLit] = useState<string>()
  const highlight = useMemo(() => new Set(lit === undefined ? [] : [lit]), [lit])
  const large = useMemo(
    () => (tab === 'large' ? buildSystem(grid({ floors: 20, risers: 10, each: 10 })) : undefined),
    [tab],
  )
  const table = (
    <>
      <PageHead title="Places" lead="Hover either side; the other answers." />
      <DataTable
        caption={`${outlets.length} outlets`}
        rows={outlets}
        rowId={(row) => row.id}
        columns={[
          { id: 'id', head: 'Outlet', cell: (row) => row.id, sort: (row) => row.id },
          { id: 'floor', head: 'Floor', cell: (row) => row.floor, sort: (row) => row.floor, numeric: true },
          { id: 'riser', head: 'Riser', cell: (row) => row.riser, sort: (row) => row.riser },
        ]}
        selectedId={selected}
        onSelect={setSelected}
        onHover={setLit}
        lit={highlight}
      />
    </>
  )
  return (
    <PlainShell where={<span>Riser diagram</span>}>
      <div className="showcase-fill">
        <Split aside={table} asideLabel="Places">
          <Tabs label="layer of the drawing" tabs={TABS} selected={tab} onSelect={setTab}>
            <RiserDiagram
              key={tab === 'large' ? 'large' : 'small'}
              system={large ?? small}
              layer={tab === 'results' ? RESULTS : undefined}
              selected={selected}
              onSelect={setSelected}
              highlight={highlight}
              onHover={setLit}
            />
          </Tabs>
        </Split>
      </div>
    </PlainShell>
  )
}
