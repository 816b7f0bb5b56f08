import type { ConsignmentView } from '@rillmark/casebook/custody/custody-view.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { AcceptDialog } from './AcceptDialog.tsx'
import { HandOverDialog } from './HandOverDialog.tsx'
import { LoggerDialog } from './LoggerDialog.tsx'
import { OpenSealDialog } from './OpenSealDialog.tsx'
import { ReceiptDialog } from './ReceiptDialog.tsx'
import { SealDialog } from './SealDialog.tsx'
import { TemperatureDialog } from './TemperatureDialog.tsx'

const ACTS = {
  seal: { words: 'Seal', dialog: SealDialog },
  open: { words: 'Open the seal', dialog: OpenSealDialog },
  temperature: { words: 'Log temperature', dialog: TemperatureDialog },
  logger: { words: 'Read a logger', dialog: LoggerDialog },
  over: { words: 'Hand over', dialog: HandOverDialog },
  accept: { words: 'Accept', dialog: AcceptDialog },
  receipt: { words: 'Laboratory receipt', dialog: ReceiptDialog },
} as const
type Act = keyof typeof ACTS

/** What can be done with a box now, the likeliest first. */
export function BoxActs({ box }: { readonly box: ConsignmentView }): ReactNode {
  const [open, setOpen] = useState<Act>()
  const { device } = useInvestigation()
  const acts = actsFor(box, device)
  if (acts.length === 0) return null
  const Form = open === undefined ? undefined : ACTS[open].dialog
  return (
    <>
      <ButtonRow>
        {acts.map((act) => (
          <Button key={act} onPress={() => setOpen(act)} name={`${ACTS[act].words}, ${box.code}`}>
            {ACTS[act].words}
          </Button>
        ))}
      </ButtonRow>
      {Form !== undefined && <Form box={box} onClose={() => setOpen(undefined)} />}
    </>
  )
}

function actsFor({ stage, seal, samples, waiting }: ConsignmentView, device: string): Act[] {
  if (stage === 'received') return ['logger']
  if (samples.length === 0) return ['temperature']
  if (waiting !== undefined)
    return [...(waiting.device === device ? ['accept' as const] : []), 'receipt', 'temperature', 'logger']
  const onTheWay: Act[] = stage === 'on its way' ? ['receipt', 'over'] : ['over', 'receipt']
  return seal === undefined
    ? ['seal', ...onTheWay, 'temperature', 'logger']
    : [...onTheWay, 'temperature', 'logger', 'open']
}
