/** Offsets from UTC in use somewhere in the world, by the half hour, and Nepal's and others' quarter hours. */
const QUARTERS: ReadonlySet<number> = new Set([345, 525, 765])
const [LEAST_MINUTES, MOST_MINUTES] = [-720, 840]

export const OFFSETS: readonly { readonly id: string; readonly label: string }[] = Array.from(
  { length: (MOST_MINUTES - LEAST_MINUTES) / 15 + 1 },
  (_, index) => LEAST_MINUTES + index * 15,
)
  .filter((minutes) => minutes % 30 === 0 || QUARTERS.has(minutes))
  .map((minutes) => {
    const two = (value: number): string => String(value).padStart(2, '0')
    const size = Math.abs(minutes)
    const id = `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`
    return { id, label: minutes === 0 ? 'UTC' : `UTC${id}` }
  })
