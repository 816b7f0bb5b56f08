import type { Way } from '../way.ts'

export const way: Way = {
  title: 'a link is dropped and the next tied over the gap',
  breaksAt: 7,
  tamper: ({ links }) => {
    const rest = links.toSpliced(6, 1).map((link, index) => ({ ...link, sequence: index + 1 }))
    const seventh = rest[6]
    return seventh === undefined ? rest : rest.with(6, { ...seventh, previous: links[5]?.hash ?? '' })
  },
}
