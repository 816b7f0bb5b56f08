import confidence from '@rillmark/reference/findings/confidence.json' with { type: 'json' }

/** The confidence level of every interval among the findings, 0 to 1. */
export const CONFIDENCE_LEVEL = confidence.level.value

/** The same as a reader is told it: `95 %`. */
export const CONFIDENCE_WORDS = `${CONFIDENCE_LEVEL * 100} %`
