const LENGTH = 8

/** An id for a stop added on the spot; two devices that can't hear of each other don't make the same. */
export function newStopId(): string {
  return `added-${crypto.randomUUID().slice(0, LENGTH)}`
}
