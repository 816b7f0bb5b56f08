import { useNavigate } from '@tanstack/react-router'
import { type ReactNode, useMemo, useState } from 'react'
import { Autocomplete } from 'react-aria-components/Autocomplete'
import { Input } from 'react-aria-components/Input'
import { Label } from 'react-aria-components/Label'
import { ListBox, ListBoxItem } from 'react-aria-components/ListBox'
import { SearchField } from 'react-aria-components/SearchField'
import { Dialog } from '../kit/Dialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { findItems } from './find-items.ts'

const SHOWN = 60

/** Goes to any step, case, outlet or sample by typing part of its name. */
export function FindDialog(props: { readonly open: boolean; readonly onClose: () => void }): ReactNode {
  const { id, state, version } = useInvestigation()
  const [text, setText] = useState('')
  const navigate = useNavigate()
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const all = useMemo(() => findItems(state), [version])
  const wanted = text.trim().toLowerCase()
  const shown = all.filter((item) => `${item.label} ${item.hint}`.toLowerCase().includes(wanted)).slice(0, SHOWN)
  const close = (): void => {
    setText('')
    props.onClose()
  }
  const go = (key: string | number): void => {
    const item = all.find((one) => one.id === key)
    if (item === undefined) return
    close()
    void navigate({ to: `/i/${id}/${item.step}`, search: item.show === undefined ? {} : { show: item.show } })
  }
  return (
    <Dialog title="Find" open={props.open} onClose={close}>
      {/* oxlint-disable-next-line jsx-a11y/no-static-element-interactions -- one Escape leaves, where the field alone would only clear itself */}
      <div
        className="find"
        onKeyDownCapture={(event) => {
          if (event.key !== 'Escape') return
          event.stopPropagation()
          close()
        }}
      >
        <Autocomplete inputValue={text} onInputChange={setText}>
          {/* oxlint-disable-next-line jsx-a11y/no-autofocus -- Find is opened to type into */}
          <SearchField autoFocus className="field field-full">
            <Label className="visually-hidden">A step, case, outlet or sample</Label>
            <Input className="input" placeholder="a step, case, outlet or sample" />
          </SearchField>
          <ListBox
            className="listbox find-list"
            aria-label="Found"
            items={shown}
            onAction={go}
            selectionMode="none"
            renderEmptyState={() => <p className="listbox-empty">Nothing by that name in this investigation.</p>}
          >
            {(item) => (
              <ListBoxItem id={item.id} textValue={item.label} className="listbox-item">
                <span>{item.label}</span>
                <span className="faint">{item.hint}</span>
              </ListBoxItem>
            )}
          </ListBox>
        </Autocomplete>
      </div>
    </Dialog>
  )
}
