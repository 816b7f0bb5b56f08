import type { TableName } from '@rillmark/casebook/building/table-columns.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { idPart } from '@rillmark/casebook/building/quick-description.ts'
import { drawSystem } from '@rillmark/casebook/drawing/draw-scene.ts'
import { sceneToSvg } from '@rillmark/casebook/drawing/svg.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { csvTable } from '@rillmark/exchange/building/csv-tables.ts'
import { type ReactNode, useState } from 'react'
import { Menu } from '../kit/Menu.tsx'
import { saveDocument } from '../store/fetch-document.ts'
import { usePreferences } from '../store/preferences.tsx'
import { ImportTablesDialog } from './ImportTablesDialog.tsx'
import { knownLayer } from './layers.ts'

const ITEMS = [
  { id: 'import', label: 'Bring in a table', hint: 'CSV' },
  { id: 'anew', label: 'Describe the building anew' },
  { id: 'drawing', label: 'Save the drawing', hint: 'SVG' },
  { id: 'known', label: 'Save it with how it is known', hint: 'SVG' },
  { id: 'system', label: 'Save the water system', hint: 'JSON' },
  { id: 'components', label: 'Save the table of parts', hint: 'CSV' },
  { id: 'pipes', label: 'Save the table of pipes', hint: 'CSV' },
] as const

/** Files in and out of the described building. */
export function MoreMenu(props: { readonly system: WaterSystem; readonly onDescribeAnew: () => void }): ReactNode {
  const { system, onDescribeAnew } = props
  const { units } = usePreferences()
  const [importing, setImporting] = useState(false)
  const choose = (id: (typeof ITEMS)[number]['id']): void => {
    if (id === 'import') setImporting(true)
    else if (id === 'anew') onDescribeAnew()
    else saveFile(system, { what: id, units })
  }
  return (
    <>
      <Menu label="Files" items={ITEMS} onChoose={choose} />
      {importing && <ImportTablesDialog system={system} onClose={() => setImporting(false)} />}
    </>
  )
}

interface Saved {
  readonly what: 'drawing' | 'known' | 'system' | TableName
  /** of the drawing; files keep the units of the record */
  readonly units: DisplayUnits
}

function saveFile(system: WaterSystem, { what, units }: Saved): void {
  const base = idPart(system.name)
  const save = (file: { text: string; type: string; end: string }): void =>
    saveDocument({ blob: new Blob([file.text], { type: file.type }), fileName: `${base}-${file.end}` })
  switch (what) {
    case 'system':
      return save({ text: `${JSON.stringify(system, null, 2)}\n`, type: 'application/json', end: 'water-system.json' })
    case 'drawing':
      return save({ text: sceneToSvg(drawSystem(system, { units })), type: 'image/svg+xml', end: 'riser-diagram.svg' })
    case 'known': {
      const scene = drawSystem(system, { layer: knownLayer(system), units })
      return save({ text: sceneToSvg(scene), type: 'image/svg+xml', end: 'how-known.svg' })
    }
    default:
      return save({ text: csvTable(system, what), type: 'text/csv;charset=utf-8', end: `${what}.csv` })
  }
}
