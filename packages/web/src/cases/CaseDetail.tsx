import { careLink } from '@rillmark/casebook/cases/care-link.ts'
import { caseWindows } from '@rillmark/casebook/cases/windows.ts'
import { type ReactNode, useState } from 'react'
import { WithdrawDialog } from '../entry/WithdrawDialog.tsx'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { DataTable } from '../kit/DataTable.tsx'
import { type Fact, KeyValue } from '../kit/KeyValue.tsx'
import { Section } from '../kit/Section.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { CaseDialog } from './CaseDialog.tsx'
import { ExposureDialog } from './ExposureDialog.tsx'

/** One case: what is known of it, and where it was. */
export function CaseDetail({ code }: { readonly code: string }): ReactNode {
  const { state } = useInvestigation()
  const [open, setOpen] = useState<'amend' | 'exposure'>()
  const [withdrawing, setWithdrawing] = useState<{ id: string; words: string }>()
  const entry = state.cases.cases.get(code)
  if (entry === undefined) return null
  const exposures = state.cases.exposures.filter(({ body }) => body.caseCode === code)
  const window = caseWindows(state.cases).find((each) => each.code === code)?.window
  const care = careLink(state.cases, code)
  const facts: Fact[] = [
    { key: 'Classification', value: entry.body.classification },
    { key: 'Onset', value: entry.body.onsetDate ?? 'not known' },
    {
      key: 'Possible exposure',
      value: window === undefined ? 'cannot be told without an onset' : `${window.from} to ${window.to}`,
    },
    {
      key: 'Link',
      value: entry.body.link,
      note: `${care.words}: ${care.link} by the surveillance definition for care facilities`,
    },
    {
      key: 'Isolate',
      value: entry.body.isolate,
      note:
        entry.body.isolate === 'none taken'
          ? 'no comparison with the building will be possible for this case'
          : undefined,
    },
    ...(entry.body.notes === undefined ? [] : [{ key: 'Notes', value: entry.body.notes }]),
  ]
  return (
    <Section title={code} aside={entry.amendments > 0 ? `amended ${entry.amendments} ×` : undefined}>
      <KeyValue facts={facts} />
      <ButtonRow>
        <Button onPress={() => setOpen('exposure')}>Add a place</Button>
        <Button onPress={() => setOpen('amend')}>Amend the case</Button>
        <Button kind="text" onPress={() => setWithdrawing({ id: entry.id, words: `case ${code}` })}>
          Withdraw
        </Button>
      </ButtonRow>
      <DataTable
        caption={`Where ${code} was`}
        rows={exposures}
        rowId={({ id }) => id}
        columns={[
          { id: 'place', head: 'Place', cell: ({ body }) => body.place },
          { id: 'kind', head: 'Kind', cell: ({ body }) => body.kind },
          { id: 'from', head: 'From', cell: ({ body }) => body.from, sort: ({ body }) => body.from },
          { id: 'to', head: 'To', cell: ({ body }) => body.to },
          {
            id: 'withdraw',
            head: '',
            cell: ({ id, body }) => (
              <Button kind="text" onPress={() => setWithdrawing({ id, words: `the exposure at ${body.place}` })}>
                Withdraw
              </Button>
            ),
          },
        ]}
        empty={<p className="quiet">No places yet. Add where this case stayed, showered, bathed or passed a mist.</p>}
      />
      {open === 'amend' && <CaseDialog amends={entry} onClose={() => setOpen(undefined)} />}
      {open === 'exposure' && <ExposureDialog caseCode={code} onClose={() => setOpen(undefined)} />}
      {withdrawing !== undefined && <WithdrawDialog {...withdrawing} onClose={() => setWithdrawing(undefined)} />}
    </Section>
  )
}
