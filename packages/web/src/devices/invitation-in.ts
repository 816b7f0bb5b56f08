/** What was scanned, pasted or opened as an invitation. */
export type InvitationRead =
  | { readonly kind: 'token'; readonly token: string }
  | { readonly kind: 'elsewhere'; readonly address: string }
  | { readonly kind: 'none' }

/** Which invitation, and its secret: letters, digits, - and _ (base64url), as long as the server makes them or longer. */
const TOKEN = /^[\w-]{12,64}\.[\w-]{43,256}$/

/** Reads an invitation: the address of this server's join page with the token after #, or the token alone. */
export function invitationIn(text: string, origin: string): InvitationRead {
  const trimmed = text.trim()
  if (URL.canParse(trimmed)) {
    const url = new URL(trimmed)
    const token = url.hash.slice(1)
    if (url.pathname !== '/join' || !TOKEN.test(token)) return { kind: 'none' }
    return url.origin === origin ? { kind: 'token', token } : { kind: 'elsewhere', address: url.href }
  }
  return TOKEN.test(trimmed) ? { kind: 'token', token: trimmed } : { kind: 'none' }
}
