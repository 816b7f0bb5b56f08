import type { ReactNode } from 'react'
import { Button } from 'react-aria-components/Button'
import { ComboBox as Combo } from 'react-aria-components/ComboBox'
import { Input } from 'react-aria-components/Input'
import { Label } from 'react-aria-components/Label'
import { ListBox, ListBoxItem } from 'react-aria-components/ListBox'
import { Popover } from 'react-aria-components/Popover'
import { Text } from 'react-aria-components/Text'
import type { FieldProps } from './Field.tsx'
import type { Choice } from './Select.tsx'

export interface ComboBoxProps extends FieldProps {
  /** The text in the field. */
  readonly value: string
  readonly onChange: (text: string) => void
  /** Called with the id when a line of the list is taken. */
  readonly onChoose?: ((id: string) => void) | undefined
  readonly choices: readonly Choice[]
  /** Words of the user's own are kept, not only lines of the list. */
  readonly free?: boolean | undefined
  readonly placeholder?: string | undefined
  /** Said when nothing in the list fits what is typed. */
  readonly nothing?: string | undefined
}

/** Typing narrows a long list: a place, an outlet, a person already named. */
export function ComboBox(props: ComboBoxProps): ReactNode {
  const shown = narrowed(props.choices, props.value)
  const choose = (id: string | number | null): void => {
    const choice = props.choices.find((one) => one.id === id)
    if (choice === undefined) return
    props.onChange(choice.label)
    props.onChoose?.(choice.id)
  }
  return (
    <Combo
      className={`field field-${props.width ?? 'medium'}`}
      inputValue={props.value}
      onInputChange={props.onChange}
      onChange={choose}
      items={shown.slice(0, 200)}
      allowsCustomValue={props.free ?? false}
      allowsEmptyCollection
      isDisabled={props.disabled ?? false}
      isInvalid={props.issue !== undefined}
      isRequired={props.required ?? false}
      menuTrigger="focus"
    >
      <Label className={props.labelHidden === true ? 'visually-hidden' : 'field-label'}>
        {props.label}
        {props.required === true && (
          <span className="field-required" aria-hidden="true">
            {' '}
            needed
          </span>
        )}
      </Label>
      <span className="combo">
        <Input className="input" {...(props.placeholder === undefined ? {} : { placeholder: props.placeholder })} />
        <Button className="combo-open" aria-label="list">
          list
        </Button>
      </span>
      {props.hint !== undefined && (
        <Text slot="description" className="field-hint">
          {props.hint}
        </Text>
      )}
      {props.issue !== undefined && (
        <Text slot="errorMessage" className="field-issue">
          {props.issue}
        </Text>
      )}
      <Popover className="popover">
        <ListBox<Choice>
          className="listbox"
          renderEmptyState={() => (
            <p className="listbox-empty">
              {props.nothing ?? (props.free === true ? 'New; kept as typed.' : 'Nothing by that name.')}
            </p>
          )}
        >
          {(choice) => (
            <ListBoxItem id={choice.id} textValue={choice.label} className="listbox-item">
              <span>{choice.label}</span>
              {choice.hint !== undefined && <span className="faint">{choice.hint}</span>}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </Combo>
  )
}

/** The lines that hold what is typed; all of them while nothing is, or when a whole line is. */
function narrowed(choices: readonly Choice[], typed: string): readonly Choice[] {
  const wanted = typed.trim().toLowerCase()
  if (wanted === '' || choices.some(({ label }) => label === typed)) return choices
  return choices.filter(({ label }) => label.toLowerCase().includes(wanted))
}
