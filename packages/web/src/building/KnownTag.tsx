import type { KnownBy } from '@rillmark/casebook/building/water-system.ts'
import type { ReactNode } from 'react'
import { Mark } from '../kit/Mark.tsx'
import { Menu } from '../kit/Menu.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { KNOWN_CHOICES, KNOWN_SHAPES } from './words.ts'

/** How a fact is known: the drawing's shape and the word. */
export function KnownTag({ known }: { readonly known: KnownBy | undefined }): ReactNode {
  return (
    <span className="known" data-known={known ?? 'not said'}>
      <Mark shape={KNOWN_SHAPES[known ?? 'not said']} />
      {known ?? 'not said'}
    </span>
  )
}

/** The same as a menu: a fact just seen on site is marked so with one press. */
export function KnownMenu(props: {
  readonly fact: string
  readonly known: KnownBy | undefined
  readonly onChoose: (known: KnownBy) => void
}): ReactNode {
  const { fact, known } = props
  return (
    <span className="known" data-known={known ?? 'not said'}>
      <Mark shape={KNOWN_SHAPES[known ?? 'not said']} />
      <Menu
        kind="text"
        label={known ?? 'not said'}
        name={`${fact} is ${known ?? 'not said how known'}: change how it is known`}
        items={KNOWN_CHOICES}
        onChoose={props.onChoose}
      />
    </span>
  )
}

/** Asks how something is known; never answered for the person. */
export function KnownChoice(props: {
  readonly label: string
  readonly value: KnownBy | ''
  readonly onChange: (known: KnownBy) => void
  readonly issue?: string | undefined
}): ReactNode {
  return (
    <div className="known-choice">
      <RadioRow {...props} choices={KNOWN_CHOICES} />
    </div>
  )
}
