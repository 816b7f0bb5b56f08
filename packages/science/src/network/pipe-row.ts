/** Where a rest would have begun in a pipe that moves. */
export const MOVING = -1
/**
 * A pipe's row, side by side in memory: litres of the finest parcel, minutes stood before the present rest, the minute at which that
 * began or MOVING, minutes at rest this day, litres × K given to the air in all and until the day began.
 */
export const FINEST_L = 0
export const STOOD_BEFORE = 1
export const REST_SINCE = 2
export const RESTED = 3
export const LOST_LK = 4
export const LOST_AT_DAWN = 5
export const COLUMNS = 8
/** The same for whole numbers: the nodes at its ends, 1 where it brings water back, 1 where it last ran from `from` to `to`. */
export const FROM = 0
export const TO = 1
export const BACK = 2
export const FORWARD = 3
export const LINKS = 4
