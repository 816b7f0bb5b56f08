/** A readable id: the title's words and four random letters, so that two houses of one name stay apart. */
export function newInvestigationId(title: string): string {
  const words = title
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40)
    .replace(/-+$/, '')
  const letters = 'abcdefghjkmnpqrstuvwxyz'
  const random = crypto.getRandomValues(new Uint8Array(4))
  return `${words === '' ? 'investigation' : words}-${Array.from(random, (byte) => letters[byte % letters.length]).join('')}`
}
