import { latestFit } from '@rillmark/casebook/calibration/fit-in-use.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useState } from 'react'
import { WithdrawDialog } from '../entry/WithdrawDialog.tsx'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'
import { useDerived } from '../store/investigation.tsx'

/** Which fitted values the record holds, whether predictions take them, and the way back. */
export function FitTaken(): ReactNode {
  const latest = useDerived(latestFit)
  const [withdrawing, setWithdrawing] = useState(false)
  if (latest === undefined) return null
  const { entry, stale } = latest
  const values = `${counted(entry.body.inputs.length, 'value')} fitted to round ${entry.body.round}`
  return (
    <>
      <Note kind={stale ? 'warn' : 'plain'}>
        {stale
          ? `In the record, but no longer taken: ${values}. The description changed since; fit again.`
          : `In the record, and taken by predictions: ${values}.`}{' '}
        <Button kind="text" name={`Withdraw the ${values}`} onPress={() => setWithdrawing(true)}>
          Withdraw
        </Button>
      </Note>
      {withdrawing && <WithdrawDialog id={entry.id} words={`the ${values}`} onClose={() => setWithdrawing(false)} />}
    </>
  )
}
