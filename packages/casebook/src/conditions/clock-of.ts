const MINUTES_A_DAY = 1440

/** The time of day at which a span begins: `07:15`. */
export function clockOf(slot: number, slots: number): string {
  const minutes = Math.round((slot * MINUTES_A_DAY) / slots)
  const two = (count: number): string => String(count).padStart(2, '0')
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`
}
