import barcodes from 'bwip-js/generic'

/** Modules of nothing around the code (ISO/IEC 18004). */
const QUIET = 4
/** Two modules one above the other in one character: both light, lower dark, upper dark, both dark. */
const HALVES = [' ', '▄', '▀', '█'] as const

/**
 * A QR code (ISO/IEC 18004, level M) as lines of block characters, for a terminal: two rows of modules a line. Dark modules are the marks,
 * so it reads right where text is dark on light.
 */
export function qrLines(text: string): string[] {
  const { isDark, size } = modulesOf(text)
  const across = Array.from({ length: size + 2 * QUIET }, (_, at) => at - QUIET)
  return across
    .filter((row) => (row + QUIET) % 2 === 0)
    .map((row) =>
      across.map((column) => HALVES[(isDark(row, column) ? 2 : 0) + (isDark(row + 1, column) ? 1 : 0)] ?? ' ').join(''),
    )
}

function modulesOf(text: string): { size: number; isDark: (row: number, column: number) => boolean } {
  // oxlint-disable-next-line import/no-named-as-default-member -- the library's export of this name is another function
  const [drawn] = barcodes.raw('qrcode', text, 'eclevel=M')
  if (drawn === undefined || !('pixs' in drawn)) throw new Error('Cannot draw a QR code because nothing came of it')
  const { pixs, pixx: size } = drawn
  const inside = (at: number): boolean => at >= 0 && at < size
  return { size, isDark: (row, column) => inside(row) && inside(column) && pixs[row * size + column] === 1 }
}
