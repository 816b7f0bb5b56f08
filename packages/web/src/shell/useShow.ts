import { useSearch } from '@tanstack/react-router'

/** What the address asks to select on arrival (?show=CODE), for instance from Find; undefined when nothing is asked. */
export function useShow(): string | undefined {
  return useSearch({ from: '/i/$investigation' }).show
}
