import { expect, test } from 'vitest'
import { RESERVED_BYTES, Room } from './room.ts'

test('[PIC5] a disk takes what leaves enough for entries, and counts what it took since it was looked at', async () => {
  const disk = { free: RESERVED_BYTES + 100, ms: 0 }
  const room = new Room({ freeBytes: async () => disk.free, now: () => disk.ms })
  expect(await room.takes(101)).toBe(false)
  expect([await room.takes(60), await room.takes(60), await room.takes(40)]).toEqual([true, false, true])
  disk.free -= 90
  disk.ms += 1001
  expect([await room.takes(11), await room.takes(10)]).toEqual([false, true])
})
