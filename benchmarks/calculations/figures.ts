/** The numbers at some paths of a result; what isn't there is told. */
export function figuresAt(result: unknown, paths: readonly string[]): number[] {
  return paths.map((path) => {
    let at = result
    for (const name of path.split('.')) at = typeof at === 'object' && at !== null ? Reflect.get(at, name) : undefined
    if (typeof at !== 'number') throw new Error(`no number at ${path}`)
    return at
  })
}

/** Of both matrices of allele differences the sum, and the sum weighed by row and column: enough to tell whether they are the same. */
export function matrixSums(result: unknown): number[][] {
  const { matrix, comparedLoci } = result as { matrix: number[][]; comparedLoci: number[][] }
  return [matrix, comparedLoci].map((rows) => {
    let [sum, weighed] = [0, 0]
    for (const [a, row] of rows.entries())
      for (const [b, count] of row.entries()) {
        sum += count
        weighed += (a + 1) * (b + 1) * count
      }
    return [sum, weighed]
  })
}
