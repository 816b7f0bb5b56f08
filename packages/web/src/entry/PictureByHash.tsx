import { type ReactNode, useEffect, useState } from 'react'
import { useDevice } from '../store/device.tsx'

type Shown =
  | { readonly kind: 'address'; readonly address: string }
  | { readonly kind: 'missing' }
  | { readonly kind: 'looking' }

/** A picture of the record by its hash, from this device or the server; where it is on neither, or is no picture, that is said. */
export function PictureByHash(props: {
  readonly sha256: string
  readonly shows: string
  readonly className?: string
}): ReactNode {
  const { sha256, shows, className } = props
  const { attachmentAddress } = useDevice()
  const [shown, setShown] = useState<Shown>({ kind: 'looking' })
  useEffect(() => {
    let made: string | undefined
    let gone = false
    attachmentAddress(sha256).then(
      (address) => {
        made = address
        if (gone) release(address)
        else setShown({ kind: 'address', address })
      },
      () => {
        if (!gone) setShown({ kind: 'missing' })
      },
    )
    return () => {
      gone = true
      if (made !== undefined) release(made)
    }
  }, [attachmentAddress, sha256])
  if (shown.kind === 'looking') return null
  if (shown.kind === 'missing')
    return <span className="quiet">The picture is neither on this device nor within reach on the server.</span>
  const { address } = shown
  return (
    <img className={className} src={address} alt={shows} loading="lazy" onError={() => setShown({ kind: 'missing' })} />
  )
}

function release(address: string): void {
  if (address.startsWith('blob:')) URL.revokeObjectURL(address)
}
