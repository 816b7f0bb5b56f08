import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'

/**
 * The code offered for a new box. Where others write in the record too it has the person's initials, for two who pack out of reach of each
 * other must not both write "Box 2" on theirs.
 */
export function nextBoxCode(
  { custody, devices }: Pick<InvestigationState, 'custody' | 'devices'>,
  { device, author }: { readonly device: string; readonly author: string },
): string {
  const number = custody.consignments.size + 1
  const others = [...devices].some(([id, { role }]) => id !== device && (role === 'lead' || role === 'sampler'))
  const initials = author
    .split(/[^\p{L}]+/u)
    .map((word) => word.slice(0, 1).toUpperCase())
    .join('')
  return others && initials !== '' ? `Box ${initials} ${number}` : `Box ${number}`
}
