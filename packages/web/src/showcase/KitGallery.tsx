import { type ReactNode, useState } from 'react'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import { PlainShell } from '../shell/PlainShell.tsx'
import { FieldsGallery } from './FieldsGallery.tsx'
import { MessagesGallery } from './MessagesGallery.tsx'
import { TablesGallery } from './TablesGallery.tsx'

const TABS = [
  { id: 'fields', label: 'Fields and acts' },
  { id: 'messages', label: 'Messages and measures' },
  { id: 'tables', label: 'Tables and facts', count: 5 },
] as const

/** Every component of the kit in use, in development only. */
export function KitGallery(): ReactNode {
  const [tab, setTab] = useState<(typeof TABS)[number]['id']>('fields')
  return (
    <PlainShell where={<span>Component kit</span>}>
      <Page>
        <PageHead title="The kit" lead="Everything screens are made of. Invented values." />
        <Tabs label="part of the kit" tabs={TABS} selected={tab} onSelect={setTab}>
          {tab === 'fields' && <FieldsGallery />}
          {tab === 'messages' && <MessagesGallery />}
          {tab === 'tables' && <TablesGallery />}
        </Tabs>
      </Page>
    </PlainShell>
  )
}
