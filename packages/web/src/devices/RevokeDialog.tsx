import { counted } from '@rillmark/casebook/units/counted.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { CheckboxField } from '../kit/CheckboxField.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import type { DeviceAccess, KnownDevice } from '../sync/device-access.ts'

/** Ends what a device may do, with the reason that goes into every record it wrote in. */
export function RevokeDialog(props: {
  readonly access: DeviceAccess
  readonly device: KnownDevice
  readonly onClose: () => void
}): ReactNode {
  const { access, device, onClose } = props
  const [reason, setReason] = useState('')
  const [endLinks, setEndLinks] = useState(false)
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const [busy, setBusy] = useState(false)
  const revoke = async (): Promise<void> => {
    const given = reason.trim()
    if (given === '') return setIssues([{ path: 'Reason', expected: 'one sentence', received: 'nothing' }])
    setBusy(true)
    const answer = await access.revoke({ device: device.id, reason: given, endLinks })
    setBusy(false)
    if (answer.ok) onClose()
    else setIssues(answer.issues)
  }
  return (
    <WritingDialog
      title={`Revoke ${device.name}`}
      act="Revoke it"
      issues={issues}
      busy={busy}
      onWrite={revoke}
      onClose={onClose}
    >
      <p className="quiet">
        {device.id === access.device && <b>This is the device you are sitting at. </b>}
        From now on it can neither read nor write here; what it wrote stays. Entries that wait on it and have not been
        sent can no longer come in; invitations it made let nobody in any more. It does not come back: the same phone
        would have to join anew.
      </p>
      <TextArea
        label="Reason"
        hint="Goes into every record this device wrote in."
        value={reason}
        onChange={setReason}
        required
      />
      {device.links > 0 && (
        <CheckboxField
          label={`Also end the ${counted(device.links, 'laboratory link')} made on it`}
          hint="Whoever has one can write the receipt of its box. A laboratory that is to use it needs a new one then."
          checked={endLinks}
          onChange={setEndLinks}
        />
      )}
    </WritingDialog>
  )
}
