import type { ReactNode } from 'react'
import { Tab, TabList, TabPanel, Tabs as TabSet } from 'react-aria-components/Tabs'

export interface TabsProps<Id extends string> {
  /** What is being switched: 'layer of the drawing'. */
  readonly label: string
  readonly tabs: readonly { readonly id: Id; readonly label: string; readonly count?: number | undefined }[]
  readonly selected: Id
  readonly onSelect: (id: Id) => void
  /** The panel of the selected tab. */
  readonly children: ReactNode
}

/** Layers of one drawing, or faces of one subject. A row of words; the chosen one is underlined. */
export function Tabs<Id extends string>(props: TabsProps<Id>): ReactNode {
  const select = (key: string | number): void => {
    const tab = props.tabs.find((one) => one.id === key)
    if (tab !== undefined) props.onSelect(tab.id)
  }
  return (
    <TabSet className="tabs" selectedKey={props.selected} onSelectionChange={select}>
      <TabList className="tabs-list" aria-label={props.label}>
        {props.tabs.map((tab) => (
          <Tab key={tab.id} id={tab.id} className="tab">
            {tab.label}
            {tab.count !== undefined && <span className="tab-count">{tab.count}</span>}
          </Tab>
        ))}
      </TabList>
      <TabPanel id={props.selected} className="tab-panel">
        {props.children}
      </TabPanel>
    </TabSet>
  )
}
