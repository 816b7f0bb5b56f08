const two = (value: number): string => String(value).padStart(2, '0')

/** An instant on this device's clock: the time of day where it was today, else the day too. */
export function shortMoment(instant: string, now = new Date()): string {
  const at = new Date(instant)
  const time = `${two(at.getHours())}:${two(at.getMinutes())}`
  if (at.toDateString() === now.toDateString()) return time
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())} ${time}`
}
