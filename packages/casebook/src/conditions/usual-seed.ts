/** Seed of the draws where none is asked for: the same each time, so that two runs differ by the description alone. */
export const USUAL_SEED = 1
