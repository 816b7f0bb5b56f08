export const SEAL_STATES = [
  { id: 'intact', label: 'whole' },
  { id: 'broken', label: 'open, broken or missing' },
] as const
export type SealState = (typeof SEAL_STATES)[number]['id']
