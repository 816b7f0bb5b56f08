/** Limits of an interval; one that has no finite value is left out. */
export interface OpenInterval {
  lower?: number | undefined
  upper?: number | undefined
}
