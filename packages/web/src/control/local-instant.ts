/** The instant it is, as entries keep it. */
export function localInstantNow(): string {
  return new Date().toISOString()
}
