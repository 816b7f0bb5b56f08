import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import { FromFile } from './FromFile.tsx'
import { FromTables } from './FromTables.tsx'
import { QuickDescribe } from './QuickDescribe.tsx'

const WAYS = [
  { id: 'quick', label: 'Two-minute description' },
  { id: 'file', label: 'A water-system file' },
  { id: 'tables', label: 'Tables of outlets and pipes' },
] as const
type Way = (typeof WAYS)[number]['id']

export interface DescribeProps {
  /** The description in force, when it is to be replaced. */
  readonly replaces: WaterSystem | undefined
  readonly onDone: () => void
}

/** The first description of a building, or a whole new one. */
export function DescribeBuilding(props: DescribeProps): ReactNode {
  const [way, setWay] = useState<Way>('quick')
  const anew = props.replaces !== undefined
  return (
    <Page wide>
      <PageHead
        title={anew ? 'Describe the building anew' : 'Describe the building'}
        name="Building"
        lead="Start coarse, with what the facility’s water person can tell you now. What nobody says is filled in and marked guessed; you put it right as you see more."
        actions={anew ? <Button onPress={props.onDone}>Keep the description as it is</Button> : undefined}
      />
      {anew && (
        <Note kind="warn">
          A new description takes the place of the one in force with all its edits. Both stay in the record.
        </Note>
      )}
      <Tabs label="Way of describing" tabs={WAYS} selected={way} onSelect={setWay}>
        {way === 'quick' && <QuickDescribe {...props} />}
        {way === 'file' && <FromFile {...props} />}
        {way === 'tables' && <FromTables {...props} />}
      </Tabs>
    </Page>
  )
}
