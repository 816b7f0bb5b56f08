/** 0 °C in kelvin, by definition. */
export const KELVIN_AT_ZERO_C = 273.15
