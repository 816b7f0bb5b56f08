/**
 * Units of the United States by their definitions. They are exact, and stand here once: whoever converts imports them.
 * Source: NIST Special Publication 811 (2008), appendix B (from memory; definitions, held against each other by the test).
 */

/** The international inch. */
export const MM_PER_INCH = 25.4

/** The international foot: 12 inches. */
export const METRES_PER_FOOT = 0.3048

/** The avoirdupois pound. */
export const KG_PER_POUND = 0.45359237

/** The US liquid gallon: 231 cubic inches. */
export const LITRES_PER_US_GALLON = 3.785411784

/** Fahrenheit's scale: the degrees that go into one of Celsius', and what it shows where Celsius' shows 0. */
export const FAHRENHEIT = { degreesPerC: 1.8, atZeroC: 32 } as const
