/**
 * The two check digits of ISO/IEC 7064, MOD 97-10, for a string of digits and letters.
 *
 * Why: read with its check digits appended, a string is a number that leaves the remainder 1 when divided by 97. One wrong character,
 * or two neighbours swapped, changes that remainder, because neither the change nor the powers of 10 share a factor with 97.
 * Letters count as 10 to 35 (A = 10 … Z = 35), as the standard's users write it.
 * @param text digits and capital letters, at least one.
 * @returns two digits, `02` to `98`.
 * @throws RangeError when the text holds anything else.
 * @source iso-7064
 * @example checkDigits('794') // '44'
 */
export function checkDigits(text: string): string {
  return String(MODULUS + 1 - remainder(`${text}00`)).padStart(2, '0')
}

/** Whether the last two characters are the right check digits of what stands before them. */
export function hasRightCheckDigits(text: string): boolean {
  return text.length > 2 && /\d\d$/.test(text) && checkDigits(text.slice(0, -2)) === text.slice(-2)
}

const MODULUS = 97

function remainder(text: string): number {
  if (!/^[0-9A-Z]+$/.test(text))
    throw new RangeError(
      `Cannot compute check digits because only digits and capital letters count: got ${JSON.stringify(text)}`,
    )
  let rest = 0
  for (const character of text) {
    for (const digit of String(Number.parseInt(character, 36))) rest = (rest * 10 + Number(digit)) % MODULUS
  }
  return rest
}
