/** What a device may do, in rising order: each may do what the ones before it may. */
export const ROLES = ['reader', 'sampler', 'lead'] as const

export type Role = (typeof ROLES)[number]

/** Whether a role is at least another. */
export function isAtLeast(role: Role, least: Role): boolean {
  return ROLES.indexOf(role) >= ROLES.indexOf(least)
}
