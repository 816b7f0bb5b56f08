import { expect, test } from 'vitest'
import { ReadingPaths } from './reading-path.ts'
import { threeTaps } from './small-buildings.fixture.ts'

const paths = new ReadingPaths(threeTaps)

test('[CLB21] a return that is read where it joins others is that of its own riser, before it mixes', () => {
  const at = (id: string) => paths.placeOf({ component: id, circuit: 'hot-return' })
  for (const riser of ['a', 'b'])
    expect(at(`return-main-${riser}`)).toEqual({
      kind: 'of returns',
      pipes: [`hot-return-hot-${riser}-f1-to-return-main-${riser}`],
    })
  // the first on the main: nothing mixes there
  expect(at('return-main-c')).toEqual({ kind: 'of a part', component: 'return-main-c' })
  expect(at('heater-1')).toMatchObject({ kind: 'of returns' })
})

test('[CLB2] a tap is read at the end of the pipes its water comes through, nearest first; a place without such water at none', () => {
  expect(paths.placeOf({ component: 'basin-tap-b102', circuit: 'hot' })).toMatchObject({
    kind: 'through pipes',
    pipes: expect.arrayContaining(['hot-hot-b-f1-to-basin-tap-b102']),
  })
  expect(paths.placeOf({ component: 'basin-tap-b102', circuit: 'tempered' })).toBeUndefined()
})
