import { qrSvg } from '@rillmark/exchange/access/qr-svg.ts'
import { type ReactNode, useMemo } from 'react'

/** A QR code as a picture, dark on white in every theme: that is what cameras read. */
export function QrCode({ text, label }: { readonly text: string; readonly label: string }): ReactNode {
  const address = useMemo(() => `data:image/svg+xml,${encodeURIComponent(qrSvg(text))}`, [text])
  return <img className="qr-code" src={address} alt={label} />
}
