/**
 * A number with its noun: `1 case`, `5 cases`.
 *
 * @example counted(2, 'entry', 'entries') // '2 entries'
 */
export function counted(count: number, noun: string, plural = `${noun}s`): string {
  return `${count} ${count === 1 ? noun : plural}`
}
