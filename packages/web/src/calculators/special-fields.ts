import type { ReactNode } from 'react'
import type { SchemaFormProps } from '../form/SchemaForm.tsx'
import { boreFields } from './BoreFields.tsx'
import { onsetFields } from './OnsetLines.tsx'
import { textFields } from './TextFields.tsx'

/** Groups with a form of their own; the others are made from their schema. */
export function specialFields(group: SchemaFormProps): ReactNode | undefined {
  return boreFields(group) ?? onsetFields(group) ?? textFields(group)
}
