import type { ReactNode } from 'react'
import { Button } from 'react-aria-components/Button'
import { Menu as List, MenuItem, MenuTrigger } from 'react-aria-components/Menu'
import { Popover } from 'react-aria-components/Popover'

export interface MenuProps<Id extends string> {
  readonly label: string
  readonly items: readonly {
    readonly id: Id
    readonly label: string
    readonly hint?: string | undefined
    readonly disabled?: boolean | undefined
  }[]
  readonly onChoose: (id: Id) => void
  readonly kind?: 'quiet' | 'text' | undefined
  /** Fuller name for a screen reader where the visible word alone does not say what it is about. */
  readonly name?: string | undefined
}

/** A few acts behind one word. */
export function Menu<Id extends string>(props: MenuProps<Id>): ReactNode {
  const choose = (key: string | number): void => {
    const item = props.items.find((one) => one.id === key)
    if (item !== undefined) props.onChoose(item.id)
  }
  return (
    <MenuTrigger>
      <Button
        className={`button button-${props.kind ?? 'quiet'} menu-button`}
        {...(props.name === undefined ? {} : { 'aria-label': props.name })}
      >
        {props.label}
      </Button>
      <Popover className="popover" placement="bottom end">
        <List
          className="listbox"
          onAction={choose}
          disabledKeys={props.items.filter((item) => item.disabled === true).map((item) => item.id)}
        >
          {props.items.map((item) => (
            <MenuItem key={item.id} id={item.id} textValue={item.label} className="listbox-item">
              <span>{item.label}</span>
              {item.hint !== undefined && <span className="faint">{item.hint}</span>}
            </MenuItem>
          ))}
        </List>
      </Popover>
    </MenuTrigger>
  )
}
