import { type FloorNames, floorWords } from '@rillmark/casebook/building/floor-words.ts'
import { componentName } from '@rillmark/casebook/building/labels.ts'
import { type Component, isHeater, isOutlet } from '@rillmark/casebook/building/water-system.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ComboBox } from '../kit/ComboBox.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { AskedPoint } from '@rillmark/casebook/plan/plan-input.ts'

export interface PointDialogProps {
  readonly title: string
  readonly act: string
  readonly hint: string
  /** the point spoken of; where none is given, one is chosen */
  readonly point?: { readonly component: string; readonly title: string } | undefined
  readonly components: readonly Component[]
  /** what spoke against it when it was tried */
  readonly issues?: readonly Issue[] | undefined
  readonly onDone: (point: AskedPoint) => void
  readonly onClose: () => void
}

/** Adds a point or takes one out: never without a reason. */
export function PointDialog(props: PointDialogProps): ReactNode {
  const [typed, setTyped] = useState('')
  const [chosen, setChosen] = useState(props.point?.component)
  const [text, setText] = useState('')
  const [tried, setTried] = useState(false)
  const { floors } = useInvestigation().state.building.system ?? {}
  const choices = useMemo(() => choicesOf(props.components, floors), [props.components, floors])
  const finish = (): void => {
    setTried(true)
    if (chosen !== undefined && text.trim() !== '') props.onDone({ component: chosen, text: text.trim() })
  }
  return (
    <Dialog
      title={props.title}
      open
      onClose={props.onClose}
      actions={
        <>
          <Button kind="primary" onPress={finish}>
            {props.act}
          </Button>
          <Button onPress={props.onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={props.issues ?? []} />
        {props.point === undefined && (
          <ComboBox
            label="Point"
            value={typed}
            onChange={setTyped}
            onChoose={setChosen}
            choices={choices}
            required
            width="full"
            {...(tried && chosen === undefined ? { issue: 'Choose a point of the described building.' } : {})}
          />
        )}
        <TextField
          label="Reason"
          hint={props.hint}
          value={text}
          onChange={(value) => setText(value.slice(0, 200))}
          required
          width="full"
          {...(tried && text.trim() === '' ? { issue: 'Say why; the reason stays with the point.' } : {})}
        />
      </div>
    </Dialog>
  )
}

function choicesOf(
  components: readonly Component[],
  floors: FloorNames,
): { id: string; label: string; hint?: string }[] {
  const points = components.filter(
    (one) =>
      isOutlet(one) || isHeater(one) || ['supply-entry', 'cold-tank', 'treatment', 'drain-valve'].includes(one.kind),
  )
  return points.map((one) => {
    const hint = [
      one.floor === undefined ? '' : floorWords(floors, one.floor),
      one.riser === undefined ? '' : `riser ${one.riser}`,
    ]
      .filter((part) => part !== '')
      .join(', ')
    return { id: one.id, label: componentName(one), ...(hint === '' ? {} : { hint }) }
  })
}
