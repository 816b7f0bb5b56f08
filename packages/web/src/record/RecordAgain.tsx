import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useDevice } from '../store/device.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { recordAgain } from './record-again.ts'
import type { Refused } from './RefusedPart.tsx'

/** After a revocation and a new invitation: all that was not sent before, recorded again under the new key by one act. */
export function RecordAgain({ refused }: { readonly refused: readonly Refused[] }): ReactNode {
  const { id: investigation, propose } = useInvestigation()
  const device = useDevice()
  const { say } = useToasts()
  const [busy, setBusy] = useState(false)
  // who it was then says nothing that anybody saw or did
  const joined = refused.filter(({ entry }) => entry.kind === 'device.joined')
  const entries = refused.map(({ entry }) => entry).filter(({ kind }) => kind !== 'device.joined')
  const act = async (): Promise<void> => {
    setBusy(true)
    const { done, left } = await recordAgain(entries, propose)
    if (left === 0) for (const { entry } of joined) await device.settle({ investigation, entry: entry.id })
    setBusy(false)
    const kept = left === 0 ? '' : ` ${left} stay refused: see each.`
    say(`${counted(done, ENTRY)} recorded again.${kept}`)
  }
  if (entries.length === 0) return null
  return (
    <div className="stack">
      <p>
        {counted(entries.length, ENTRY)} {entries.length === 1 ? 'was' : 'were'} written here before this device was
        revoked and joined anew. Recorded again, each bears its own time and the new key, and a note says so.
      </p>
      <div>
        <Button kind="primary" busy={busy} onPress={() => void act()}>
          {entries.length === 1 ? 'Record it again' : `Record all ${entries.length} again`}
        </Button>
      </div>
    </div>
  )
}

const ENTRY = { one: 'entry', many: 'entries' }
