/** The instant something happened: as given, else when it was written down. */
export function happenedAt(entry: { readonly instant: string; readonly body: unknown }): string {
  const { body } = entry
  const given = typeof body === 'object' && body !== null && 'at' in body ? body.at : undefined
  return typeof given === 'string' ? given : entry.instant
}
