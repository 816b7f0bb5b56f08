import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'a hash is written twice, the true one last',
  breaksAt: 3,
  tamper: ({ links }) => rewrite(links, { at: 3, change: (line) => line.replace('"hash":', '"hash":"","hash":') }),
}
