import type { Way } from '../way.ts'

export const way: Way = {
  title: 'two entries change places inside their links',
  breaksAt: 5,
  tamper: ({ links }) => {
    const [five, six] = [links[4], links[5]]
    if (five === undefined || six === undefined) return []
    return links.with(4, { ...five, entry: six.entry }).with(5, { ...six, entry: five.entry })
  },
}
