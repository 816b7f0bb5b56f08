/** What may not be as described, in the words of the trade. */
export const REASON_KINDS = [
  'stopped loop',
  'slow loop',
  'heater below its set point',
  'closed mixing valve',
  'crossed mixing valve',
  'failed check valve',
  'unknown dead leg',
] as const
export type ReasonKind = (typeof REASON_KINDS)[number]
