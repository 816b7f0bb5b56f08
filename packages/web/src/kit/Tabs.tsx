import { type KeyboardEvent, type ReactNode, useId } from 'react'

export interface TabsProps<Id extends string> {
  /** What is being switched: 'layer of the drawing'. */
  readonly label: string
  readonly tabs: readonly { readonly id: Id; readonly label: string; readonly count?: number | undefined }[]
  readonly selected: Id
  readonly onSelect: (id: Id) => void
  /** The panel of the selected tab. What stays the same across tabs (a drawing) keeps its state. */
  readonly children: ReactNode
}

const STEP_OF: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowLeft: -1 }

/** Layers of one drawing, or faces of one subject. A row of words; the chosen one is underlined. Arrow keys go along it. */
export function Tabs<Id extends string>(props: TabsProps<Id>): ReactNode {
  const { tabs, selected, onSelect } = props
  const id = useId()
  const along = (event: KeyboardEvent<HTMLDivElement>): void => {
    const at = tabs.findIndex((tab) => tab.id === selected)
    const step = STEP_OF[event.key]
    const to =
      event.key === 'Home'
        ? 0
        : event.key === 'End'
          ? tabs.length - 1
          : step === undefined
            ? undefined
            : (at + step + tabs.length) % tabs.length
    const next = to === undefined ? undefined : tabs[to]
    if (next === undefined) return
    event.preventDefault()
    onSelect(next.id)
    document.getElementById(`${id}${next.id}`)?.focus()
  }
  return (
    <div className="tabs">
      <div className="tabs-list" role="tablist" aria-label={props.label} onKeyDown={along} tabIndex={-1}>
        {tabs.map((tab) => {
          const on = tab.id === selected
          return (
            <button
              key={tab.id}
              id={`${id}${tab.id}`}
              type="button"
              role="tab"
              className="tab"
              aria-selected={on}
              aria-controls={on ? `${id}panel` : undefined}
              tabIndex={on ? 0 : -1}
              onClick={() => onSelect(tab.id)}
            >
              {tab.label}
              {tab.count !== undefined && <span className="tab-count">{tab.count}</span>}
            </button>
          )
        })}
      </div>
      <div id={`${id}panel`} className="tab-panel" role="tabpanel" aria-labelledby={`${id}${selected}`}>
        {props.children}
      </div>
    </div>
  )
}
