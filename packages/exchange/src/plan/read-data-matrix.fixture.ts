/**
 * Reads a 14 × 14 Data Matrix drawn as SVG, for tests: borders, placement of the modules and ASCII encodation as in ISO/IEC 16022,
 * written from the standard's description (from memory) and sharing nothing with the library that draws. No error correction: a symbol
 * that is drawn right needs none.
 */
export function readDataMatrix(svg: string): string {
  const modules = modulesOf(svg)
  checkBorder(modules)
  const inner = modules.slice(1, -1).map((row) => row.slice(1, -1))
  return ascii(codewords(inner).slice(0, DATA_CODEWORDS))
}

const SIZE = 14
const DATA_CODEWORDS = 8

/** Black or white at the middle of every module: even-odd rule over the outline. */
function modulesOf(svg: string): boolean[][] {
  const d = /<path d="([^"]+)"/.exec(svg)?.[1] ?? ''
  const loops = d
    .split('Z')
    .map((loop) => [...loop.matchAll(/[ML](\d+) (\d+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) })))
  const points = loops.flat()
  const low = Math.min(...points.map(({ x }) => x))
  const module = (Math.max(...points.map(({ x }) => x)) - low) / SIZE
  const black = (x: number, y: number): boolean => {
    let inside = false
    for (const loop of loops)
      loop.forEach((a, at) => {
        const b = loop[(at + 1) % loop.length] ?? a
        if (a.x === b.x && a.x > x && Math.min(a.y, b.y) < y && y < Math.max(a.y, b.y)) inside = !inside
      })
    return inside
  }
  const middle = (index: number): number => low + (index + 0.5) * module
  return Array.from({ length: SIZE }, (_, row) =>
    Array.from({ length: SIZE }, (_, column) => black(middle(column), middle(row))),
  )
}

/** Solid on the left and below, alternating above and on the right. */
function checkBorder(modules: boolean[][]): void {
  modules.forEach((row, at) => {
    const solid = row[0] === true && modules[SIZE - 1]?.[at] === true
    const alternating = modules[0]?.[at] === (at % 2 === 0) && row[SIZE - 1] === (at % 2 === 1)
    if (!solid || !alternating) throw new Error(`The border of the symbol is wrong at module ${at}`)
  })
}

/** The codewords in order: the diagonal walk, each an 8-module shape that wraps round the edges. */
function codewords(inner: boolean[][]): number[] {
  const n = inner.length
  const taken = new Set<number>()
  const words: number[] = []
  const module = (row: number, column: number): boolean => {
    let [r, c] = [row, column]
    if (r < 0) [r, c] = [r + n, c + 4 - ((n + 4) % 8)]
    if (c < 0) [r, c] = [r + 4 - ((n + 4) % 8), c + n]
    taken.add(r * n + c)
    return inner[r]?.[c] ?? false
  }
  const word = (places: readonly (readonly [number, number])[]): void => {
    words.push(places.reduce((value, [r, c]) => value * 2 + (module(r, c) ? 1 : 0), 0))
  }
  const usual = (r: number, c: number): void =>
    word([
      [r - 2, c - 2],
      [r - 2, c - 1],
      [r - 1, c - 2],
      [r - 1, c - 1],
      [r - 1, c],
      [r, c - 2],
      [r, c - 1],
      [r, c],
    ])
  let [row, column] = [4, 0]
  do {
    if (row === n && column === 0)
      word([
        [n - 1, 0],
        [n - 1, 1],
        [n - 1, 2],
        [0, n - 2],
        [0, n - 1],
        [1, n - 1],
        [2, n - 1],
        [3, n - 1],
      ])
    do {
      if (row < n && column >= 0 && !taken.has(row * n + column)) usual(row, column)
      row -= 2
      column += 2
    } while (row >= 0 && column < n)
    row += 1
    column += 3
    do {
      if (row >= 0 && column < n && !taken.has(row * n + column)) usual(row, column)
      row += 2
      column -= 2
    } while (row < n && column >= 0)
    row += 3
    column += 1
  } while (row < n || column < n)
  return words
}

const PAD = 129
const FIRST_PAIR = 130

function ascii(words: readonly number[]): string {
  const end = words.indexOf(PAD)
  return (end === -1 ? words : words.slice(0, end))
    .map((word) => (word < PAD ? String.fromCodePoint(word - 1) : String(word - FIRST_PAIR).padStart(2, '0')))
    .join('')
}
