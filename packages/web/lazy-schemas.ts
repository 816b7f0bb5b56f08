import type { Plugin } from 'vite'

/** Gives the app schemas that are made when they are first asked; src/opening/lazy-zod.ts says why. */
export function lazySchemas(): Plugin {
  const stand = `${import.meta.dirname}/src/opening/lazy-zod.ts`
  return {
    name: 'rillmark-lazy-schemas',
    apply: 'build',
    enforce: 'pre',
    resolveId: (source) => (source === 'zod' ? stand : undefined),
  }
}
