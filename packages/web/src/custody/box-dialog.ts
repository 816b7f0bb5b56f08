import type { ConsignmentView } from '@rillmark/casebook/custody/custody-view.ts'

/** What every small form about one box is given. */
export interface BoxDialogProps {
  readonly box: ConsignmentView
  readonly onClose: () => void
}
