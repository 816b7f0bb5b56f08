import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'a key that would change the object itself is added',
  breaksAt: 3,
  tamper: ({ links }) =>
    rewrite(links, {
      at: 3,
      change: (line) => line.replace('"body":{', '"body":{"__proto__":{"classification":"confirmed"},'),
    }),
}
