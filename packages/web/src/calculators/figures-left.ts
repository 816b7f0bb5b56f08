export const draftKey = (id: string): string => `rillmark.calculator.${id}`
const figuresKey = (id: string): string => `${draftKey(id)}.figures`

/** Leaves figures for a calculator's own page, which opens with them in place of what was typed there before. */
export function leaveFigures(id: string, figures: unknown): void {
  try {
    sessionStorage.removeItem(draftKey(id))
    sessionStorage.setItem(figuresKey(id), JSON.stringify(figures ?? {}))
  } catch {
    // without room the page opens as it was left
  }
}

/** The figures left for a calculator, if any; what is typed there since stands before them. */
export function figuresLeft(id: string): unknown {
  try {
    return JSON.parse(sessionStorage.getItem(figuresKey(id)) ?? '{}')
  } catch {
    return undefined
  }
}
