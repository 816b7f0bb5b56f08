/** What the uncertainty is told in: a mean over all outlets, and the place where it is worst. */
export const OUTPUTS = [
  'hot-mean',
  'hot-coolest',
  'cold-mean',
  'cold-warmest',
  'age-mean',
  'age-oldest',
  'residual-mean',
  'residual-least',
  'growth-mean',
  'growth-most',
] as const
export type Output = (typeof OUTPUTS)[number]

export const OUTPUT_WORDS: Readonly<Record<Output, { words: string; unit: '°C' | 'h' | 'mg/L' | '' }>> = {
  'hot-mean': { words: 'hot water at outlets, mean', unit: '°C' },
  'hot-coolest': { words: 'coolest hot water at an outlet', unit: '°C' },
  'cold-mean': { words: 'cold water at outlets, mean', unit: '°C' },
  'cold-warmest': { words: 'warmest cold water at an outlet', unit: '°C' },
  'age-mean': { words: 'age at outlets, mean', unit: 'h' },
  'age-oldest': { words: 'oldest water at an outlet that is used', unit: 'h' },
  'residual-mean': { words: 'residual at outlets, mean', unit: 'mg/L' },
  'residual-least': { words: 'least residual at an outlet', unit: 'mg/L' },
  'growth-mean': { words: 'growth index at outlets, mean', unit: '' },
  'growth-most': { words: 'highest growth index at an outlet', unit: '' },
}
