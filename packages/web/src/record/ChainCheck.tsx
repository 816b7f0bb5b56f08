import { type VerdictWords, verdictWords } from '@rillmark/casebook/record/verdict-words.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Mark } from '../kit/Mark.tsx'
import { useDevice } from '../store/device.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { verifyLinks } from '../sync/verify-links.ts'

type Check =
  | { readonly kind: 'not yet' | 'walking' }
  | { readonly kind: 'told'; readonly told: VerdictWords }
  | { readonly kind: 'failed'; readonly reason: string }

/** Walks this device's copy of the chain from the first entry on and says what it found. */
export function ChainCheck({ waiting }: { readonly waiting: number }): ReactNode {
  const { id } = useInvestigation()
  const device = useDevice()
  const [check, setCheck] = useState<Check>({ kind: 'not yet' })
  const walk = async (): Promise<void> => {
    setCheck({ kind: 'walking' })
    try {
      const links = await device.links(id, { after: 0, limit: Number.MAX_SAFE_INTEGER })
      setCheck({ kind: 'told', told: verdictWords(await verifyLinks(links, { investigation: id }), waiting) })
    } catch (error) {
      setCheck({ kind: 'failed', reason: error instanceof Error ? error.message : String(error) })
    }
  }
  return (
    <div className="record-chain">
      <Button busy={check.kind === 'walking'} onPress={() => void walk()}>
        Check the chain
      </Button>
      <div role="status" className="record-chain-words">
        {check.kind === 'told' && <Told told={check.told} />}
        {check.kind === 'failed' && <p>The chain could not be walked: {check.reason}. Try again.</p>}
        {check.kind === 'not yet' && (
          <p className="quiet">
            Walks this device’s copy and names the first entry that was altered, left out or put in.
          </p>
        )}
      </div>
    </div>
  )
}

function Told({ told }: { readonly told: VerdictWords }): ReactNode {
  return (
    <>
      <p className={told.sound ? 'record-sound' : 'record-broken'}>
        <Mark shape={told.sound ? 'check' : 'cross'} /> {told.words}
      </p>
      {told.hash !== undefined && <p className="mono record-hash">{told.hash}</p>}
      {told.sound && told.hash !== undefined && (
        <p className="faint">Compare it with the hash printed in a report, or on another device.</p>
      )}
    </>
  )
}
