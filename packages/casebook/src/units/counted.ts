/**
 * A number with its noun: `1 case`, `5 cases`. A noun whose plural takes more than an s gives both forms.
 *
 * @example counted(2, { one: 'entry', many: 'entries' }) // '2 entries'
 */
export function counted(count: number, noun: string | { readonly one: string; readonly many: string }): string {
  const { one, many } = typeof noun === 'string' ? { one: noun, many: `${noun}s` } : noun
  return `${count} ${count === 1 ? one : many}`
}
