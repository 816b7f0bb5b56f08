/** So many tries a minute from one address; what is tried is 256 bits long, so this only keeps the noise down. */
const ENTRANCE_TRIES = 30
/** A team behind one address may come back together. */
const SESSION_TRIES = 240
/** Work that reaches outside: invitations, links. */
const HANDED_OUT = 60

const perMinute = (max: number) => ({ rateLimit: { max, timeWindow: '1 minute' } })

export const ENTRANCE_LIMIT = perMinute(ENTRANCE_TRIES)
export const SESSION_LIMIT = perMinute(SESSION_TRIES)
export const HAND_OUT_LIMIT = perMinute(HANDED_OUT)
