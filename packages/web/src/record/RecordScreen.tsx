import { counted } from '@rillmark/casebook/units/counted.ts'
import { filterEntries, findListed, type EntryFilter, listEntries } from '@rillmark/casebook/record/entry-list.ts'
import { useNavigate } from '@tanstack/react-router'
import { type ReactNode, useDeferredValue, useMemo, useState } from 'react'
import { TwoAccounts } from '../contests/TwoAccounts.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Split } from '../kit/Split.tsx'
import { useShow } from '../shell/useShow.ts'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import { ChainCheck } from './ChainCheck.tsx'
import { EntryDetail } from './EntryDetail.tsx'
import { EntryFilters } from './EntryFilters.tsx'
import { EntryTable } from './EntryTable.tsx'
import { RefusedPart } from './RefusedPart.tsx'
import './record.css'

/** Every entry, newest first; nothing is changed or removed, amendments stand beside what they amend. */
export function RecordScreen(): ReactNode {
  const { id: investigation, sync } = useInvestigation()
  const listed = useDerived(listEntries)
  const [filter, setFilter] = useState<EntryFilter>({})
  const settled = useDeferredValue(filter)
  const rows = useMemo(() => filterEntries(listed, settled), [listed, settled])
  const show = useShow()
  const navigate = useNavigate()
  const selected = show === undefined ? undefined : findListed(listed, show)
  const select = (id: string | undefined): void => {
    void navigate({
      to: '/i/$investigation/record',
      params: { investigation },
      search: id === undefined ? {} : { show: id },
      replace: true,
      resetScroll: false,
    })
  }
  return (
    <Split
      asideLabel="The entry chosen"
      asideFirstOnPhone={selected !== undefined}
      aside={
        selected === undefined ? (
          <HowToRead missing={show} />
        ) : (
          <EntryDetail key={selected.entry.id} chosen={selected} listed={listed} onSelect={select} />
        )
      }
    >
      <PageHead
        name="Record"
        title={`${counted(listed.length, { one: 'entry', many: 'entries' })} in the record`}
        lead={`${sync.refused.length > 0 ? '' : `${sync.words}. `}An entry is never changed or removed: an amendment stands beside what it amends.`}
      />
      <TwoAccounts />
      <RefusedPart refused={sync.refused} />
      <ChainCheck waiting={sync.pending} />
      <EntryFilters filter={filter} onChange={setFilter} listed={listed} found={rows.length} />
      <EntryTable rows={rows} selected={selected} confirmed={listed.length - sync.pending} onSelect={select} />
    </Split>
  )
}

function HowToRead({ missing }: { readonly missing: string | undefined }): ReactNode {
  return (
    <>
      {missing !== undefined && (
        <p role="status">Nothing in this record is called “{missing}”. It may not have reached this device yet.</p>
      )}
      <p className="quiet prose">
        Choose an entry to see all it holds, its other versions with their reasons, and its place in the chain.
      </p>
    </>
  )
}
