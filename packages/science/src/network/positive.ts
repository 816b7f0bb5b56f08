/**
 * A number, or 0 where it is below.
 *
 * @source none: it only compares
 */
export const positive = (value: number): number => (value > 0 ? value : 0)
