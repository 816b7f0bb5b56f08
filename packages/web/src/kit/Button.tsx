import type { ReactNode } from 'react'
import { Button as Pressable } from 'react-aria-components/Button'

export interface ButtonProps {
  readonly children: ReactNode
  readonly onPress?: (() => void) | undefined
  /** primary: the one thing to do here · quiet: everything else · danger: takes something away · text: a link-like act inside a line. */
  readonly kind?: 'primary' | 'quiet' | 'danger' | 'text'
  readonly size?: 'normal' | 'big'
  readonly type?: 'button' | 'submit'
  readonly disabled?: boolean | undefined
  /** Work is under way: the button stays focused, says so and ignores presses. */
  readonly busy?: boolean | undefined
  /** Fuller name for a screen reader where the visible words alone do not say which thing is meant. */
  readonly name?: string | undefined
  readonly pressed?: boolean | undefined
}

/** One act, in words. */
export function Button(props: ButtonProps): ReactNode {
  const { kind = 'quiet', size = 'normal', type = 'button' } = props
  return (
    <Pressable
      className={`button button-${kind} button-${size}`}
      type={type}
      isDisabled={props.disabled ?? false}
      isPending={props.busy ?? false}
      {...(props.name === undefined ? {} : { 'aria-label': props.name })}
      {...(props.pressed === undefined ? {} : { 'aria-pressed': props.pressed })}
      {...(props.onPress === undefined ? {} : { onPress: props.onPress })}
    >
      {props.children}
    </Pressable>
  )
}
