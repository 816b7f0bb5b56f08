import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { FormRow } from '../kit/FormRow.tsx'

/** Rows of a kind that are added, changed and taken away: `children` gives the fields of one, and what stands below them. */
export function RowList<T>(props: {
  readonly rows: readonly T[]
  readonly onChange: (rows: readonly T[]) => void
  /** what one row is called: `heater` */
  readonly noun: string
  readonly add: { readonly words: string; readonly row: () => T; readonly disabled?: boolean | undefined }
  readonly children: (
    row: T,
    set: (change: Partial<T>) => void,
  ) => { readonly fields: ReactNode; readonly below?: ReactNode }
}): ReactNode {
  const { rows, onChange, noun, add, children } = props
  return (
    <div className="quick-rows">
      {rows.map((row, at) => {
        const set = (change: Partial<T>): void =>
          onChange(rows.map((other, index) => (index === at ? { ...row, ...change } : other)))
        const { fields, below } = children(row, set)
        return (
          // oxlint-disable-next-line react/no-array-index-key -- rows have no name but their place
          <fieldset key={at} className="quick-row">
            <legend>
              {noun.charAt(0).toUpperCase()}
              {noun.slice(1)} {at + 1}
            </legend>
            <FormRow>
              {fields}
              <Button
                kind="text"
                name={`Take ${noun} ${at + 1} away`}
                onPress={() => onChange(rows.filter((_, index) => index !== at))}
              >
                Take away
              </Button>
            </FormRow>
            {below}
          </fieldset>
        )
      })}
      <Button disabled={add.disabled} onPress={() => onChange([...rows, add.row()])}>
        {add.words}
      </Button>
    </div>
  )
}
