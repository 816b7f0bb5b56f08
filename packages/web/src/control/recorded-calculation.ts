/** A calculation as it is recorded with a measure. */
export interface RecordedCalculation {
  readonly id: string
  readonly input: unknown
  readonly result: unknown
}
