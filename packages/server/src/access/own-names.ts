/** What the server calls itself in a record (also beside another server's), and the laboratories that write through its links. */
const OWN_NAME = /^(server(-[0-9a-f]{8})?|laboratory-link-.*)$/s

/** Whether a device may not go by this name, because the server writes under it. */
export function isOwnName(device: string): boolean {
  return OWN_NAME.test(device)
}
