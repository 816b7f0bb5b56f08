/** A lower triangle L with L·Lᵀ = A, row by row. */
export interface Cholesky {
  size: number
  lower: Float64Array
}

/**
 * The triangular root of a symmetric positive matrix, or nothing where a pivot isn't above a share of its diagonal: the columns behind
 * it then depend on one another.
 *
 * @param matrix size × size, row by row
 * @param size number of rows
 * @source numerical-safeguard
 * @example
 * choleskyOf(Float64Array.of(4, 2, 2, 5), 2).lower[2] // => 1
 */
export function choleskyOf(matrix: Float64Array, size: number): Cholesky | undefined {
  const lower = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j] as number
      for (let k = 0; k < j; k++) sum -= (lower[i * size + k] as number) * (lower[j * size + k] as number)
      if (i !== j) lower[i * size + j] = sum / (lower[j * size + j] as number)
      else if (sum > LEAST_PIVOT * (matrix[i * size + i] as number)) lower[i * size + i] = Math.sqrt(sum)
      else return undefined
    }
  }
  return { size, lower }
}

/** Below this share of its diagonal a pivot is rounding. */
const LEAST_PIVOT = 1e-11

/**
 * The solution x of A·x = b.
 *
 * @param root the triangular root of A
 * @param b right side
 * @source numerical-safeguard
 * @example
 * solveWith({ size: 1, lower: Float64Array.of(2) }, Float64Array.of(4))[0] // => 1
 */
export function solveWith(root: Cholesky, b: Float64Array): Float64Array {
  const { size, lower } = root
  const x = Float64Array.from(b)
  for (let i = 0; i < size; i++) {
    let sum = x[i] as number
    for (let k = 0; k < i; k++) sum -= (lower[i * size + k] as number) * (x[k] as number)
    x[i] = sum / (lower[i * size + i] as number)
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = x[i] as number
    for (let k = i + 1; k < size; k++) sum -= (lower[k * size + i] as number) * (x[k] as number)
    x[i] = sum / (lower[i * size + i] as number)
  }
  return x
}

/**
 * The inverse of the triangular root, itself a lower triangle.
 *
 * @param root the triangular root of a matrix
 * @source numerical-safeguard
 * @example
 * inverseOf({ size: 1, lower: Float64Array.of(2) })[0] // => 0.5
 */
export function inverseOf({ size, lower }: Cholesky): Float64Array {
  const inverse = new Float64Array(size * size)
  for (let j = 0; j < size; j++)
    for (let i = j; i < size; i++) {
      let sum = i === j ? 1 : 0
      for (let k = j; k < i; k++) sum -= (lower[i * size + k] as number) * (inverse[k * size + j] as number)
      inverse[i * size + j] = sum / (lower[i * size + i] as number)
    }
  return inverse
}
