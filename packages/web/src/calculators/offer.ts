/** A calculation offered where it is needed. */
export interface Offer {
  /** id of the calculation */
  readonly id: string
  /** what it answers, as one would ask it here */
  readonly question: string
  /** what the record knows of its input already */
  readonly start?: object | undefined
}
