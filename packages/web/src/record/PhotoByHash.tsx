import { type ReactNode, useEffect, useState } from 'react'
import { useDevice } from '../store/device.tsx'

type Shown =
  | { readonly kind: 'address'; readonly address: string }
  | { readonly kind: 'missing' }
  | { readonly kind: 'looking' }

/** A picture named by its hash, from this device or the server; a file that is no picture shows nothing. */
export function PhotoByHash({ sha256, shows }: { readonly sha256: string; readonly shows: string }): ReactNode {
  const device = useDevice()
  const [shown, setShown] = useState<Shown>({ kind: 'looking' })
  useEffect(() => {
    let made: string | undefined
    let wanted = true
    device.attachmentAddress(sha256).then(
      (address) => {
        made = address
        if (wanted) setShown({ kind: 'address', address })
      },
      () => setShown({ kind: 'missing' }),
    )
    return () => {
      wanted = false
      if (made?.startsWith('blob:') === true) URL.revokeObjectURL(made)
    }
  }, [device, sha256])
  if (shown.kind === 'looking') return null
  if (shown.kind === 'missing')
    return <p className="quiet">The picture is neither on this device nor within reach on the server.</p>
  return <img className="record-photo" src={shown.address} alt={shows} onError={() => setShown({ kind: 'missing' })} />
}
