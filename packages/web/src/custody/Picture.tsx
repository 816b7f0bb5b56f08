import { type ReactNode, useEffect, useState } from 'react'
import { useDevice } from '../store/device.tsx'

/** A signature or paper form, from this device or the server. */
export function Picture({ sha256, shows }: { readonly sha256: string; readonly shows: string }): ReactNode {
  const { attachmentAddress } = useDevice()
  const [address, setAddress] = useState<string>()
  const [missing, setMissing] = useState(false)
  useEffect(() => {
    let wanted = true
    let made: string | undefined
    attachmentAddress(sha256).then(
      (found) => {
        made = found
        if (wanted) setAddress(found)
      },
      () => setMissing(true),
    )
    return () => {
      wanted = false
      if (made?.startsWith('blob:') === true) URL.revokeObjectURL(made)
    }
  }, [attachmentAddress, sha256])
  if (missing) return <span className="faint">The picture is neither here nor within reach.</span>
  if (address === undefined) return null
  return <img className="chain-picture" src={address} alt={shows} loading="lazy" onError={() => setMissing(true)} />
}
