import type { Link } from '@rillmark/casebook/chain/link.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { hashGroups } from '@rillmark/casebook/record/verdict-words.ts'
import { type ReactNode, useEffect, useState } from 'react'
import { KeyValue } from '../kit/KeyValue.tsx'
import { useDevice } from '../store/device.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { KeepReceipt } from '../entry/KeepReceipt.tsx'

interface InChainProps {
  readonly entry: Entry
  readonly number: number
  readonly waits: boolean
}

/** The link that ties an entry in, or why there is none yet. */
export function InChain({ entry, number, waits }: InChainProps): ReactNode {
  const { id } = useInvestigation()
  const device = useDevice()
  const [link, setLink] = useState<Link>()
  useEffect(() => {
    if (waits) return undefined
    let wanted = true
    device.links(id, { after: number - 1, limit: 1 }).then(
      ([found]) => {
        if (wanted) setLink(found?.entry.id === entry.id ? found : undefined)
      },
      () => undefined,
    )
    return () => {
      wanted = false
    }
  }, [device, id, number, entry.id, waits])
  if (link === undefined)
    return (
      <p className="quiet">
        {waits
          ? 'It waits on this device, kept safely. The server ties it into the chain when it can be reached.'
          : 'This window holds no link for it.'}
      </p>
    )
  const label = labelOf(entry)
  return (
    <>
      <KeyValue
        facts={[
          { key: 'Number', value: link.sequence },
          { key: 'Received by the server', value: `${wallClock({ instant: link.received, offset: '+00:00' })} UTC` },
        ]}
      />
      <Hash name="Its hash" hash={link.hash} />
      <Hash
        name={link.sequence === 1 ? 'Tied to this investigation by' : 'Hash of the one before'}
        hash={link.previous}
      />
      {label !== undefined && <KeepReceipt label={label} />}
    </>
  )
}

/** Of an entry that names one sample. */
function labelOf({ body }: Entry): string | undefined {
  return 'label' in body && typeof body.label === 'string' ? body.label : undefined
}

function Hash({ name, hash }: { readonly name: string; readonly hash: string }): ReactNode {
  return (
    <div>
      <span className="quiet">{name}</span>
      <p className="mono record-hash">{hashGroups(hash)}</p>
    </div>
  )
}
