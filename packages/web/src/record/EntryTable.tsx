import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { STEP_WORDS } from '@rillmark/casebook/entry/steps.ts'
import type { ListedEntry } from '@rillmark/casebook/record/entry-list.ts'
import { entryWords } from '@rillmark/casebook/record/entry-words.ts'
import { type StopTitles, stopTitles } from '@rillmark/casebook/fieldwork/stops.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { DataTable } from '../kit/DataTable.tsx'
import { useDerived } from '../store/investigation.tsx'
import { StandingTags } from './StandingTags.tsx'

/** Few enough that a page is drawn at once, however long the record. */
const PAGE_ROWS = 100

export interface EntryTableProps {
  /** newest first */
  readonly rows: readonly ListedEntry[]
  readonly selected: ListedEntry | undefined
  /** how many entries of the record are in the chain; later ones wait */
  readonly confirmed: number
  readonly onSelect: (id: string) => void
}

/** The entries a page at a time; opens at the page of the entry asked for. */
export function EntryTable({ rows, selected, confirmed, onSelect }: EntryTableProps): ReactNode {
  const titles = useDerived(stopTitles)
  const [turned, setTurned] = useState<{ readonly rows: readonly ListedEntry[]; readonly page: number }>()
  const pages = Math.max(1, Math.ceil(rows.length / PAGE_ROWS))
  const at = selected === undefined ? -1 : rows.indexOf(selected)
  const asked = turned?.rows === rows ? turned.page : Math.floor(Math.max(0, at) / PAGE_ROWS)
  const page = Math.min(asked, pages - 1)
  const shown = rows.slice(page * PAGE_ROWS, (page + 1) * PAGE_ROWS)
  const turn = (to: number): void => setTurned({ rows, page: to })
  return (
    <div className="record-table">
      <DataTable
        caption={captionOf(shown, rows.length)}
        rows={shown}
        rowId={({ entry }) => entry.id}
        selectedId={selected?.entry.id}
        onSelect={onSelect}
        empty={<p className="quiet">No entry passes this filter.</p>}
        columns={[
          { id: 'number', head: 'No.', cell: ({ number }) => number, width: '3.5rem' },
          {
            id: 'what',
            head: 'What',
            cell: (row) => <What row={row} titles={titles} waits={row.number > confirmed} />,
          },
          { id: 'step', head: 'Step', cell: ({ step }) => STEP_WORDS[step] },
          { id: 'who', head: 'Who', cell: ({ entry }) => <Who row={entry} /> },
          { id: 'when', head: 'When', cell: ({ entry }) => <When row={entry} /> },
        ]}
      />
      {pages > 1 && (
        <nav className="record-pages" aria-label="Pages of the record">
          <Button disabled={page === 0} onPress={() => turn(page - 1)}>
            Newer
          </Button>
          <span>
            Page {page + 1} of {pages}
          </span>
          <Button disabled={page === pages - 1} onPress={() => turn(page + 1)}>
            Older
          </Button>
        </nav>
      )}
    </div>
  )
}

function captionOf(shown: readonly ListedEntry[], all: number): string {
  const [newest, oldest] = [shown[0], shown.at(-1)]
  if (newest === undefined || oldest === undefined) return 'No entries'
  if (shown.length === all) return 'Newest first'
  return `${shown.length} of ${all}, newest first: entries ${newest.number} to ${oldest.number}`
}

function What(props: { readonly row: ListedEntry; readonly titles: StopTitles; readonly waits: boolean }): ReactNode {
  const { row, titles, waits } = props
  return (
    <span className="record-what">
      <span>
        <b>{row.title}</b> <span className="quiet">{entryWords(row.entry, titles)}</span>
      </span>
      <StandingTags row={row} waits={waits} />
    </span>
  )
}

function When({ row: { instant, offset } }: { readonly row: ListedEntry['entry'] }): ReactNode {
  return (
    <span className="record-when">
      {wallClock({ instant, offset })} <span className="record-small">{offset}</span>
    </span>
  )
}

/** Devices have long names; their end tells them apart, and the whole stands in the detail. */
const DEVICE_LETTERS = 14

function Who({ row: { author, device } }: { readonly row: ListedEntry['entry'] }): ReactNode {
  const short = device.length > DEVICE_LETTERS ? `…${device.slice(-DEVICE_LETTERS)}` : device
  return (
    <span className="record-who">
      <span>{author}</span> <span className="record-small">{short}</span>
    </span>
  )
}
