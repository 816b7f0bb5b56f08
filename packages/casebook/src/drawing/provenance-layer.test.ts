import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import { countKnown, weakestKnown } from '../building/weakest-known.ts'
import { provenanceLayer } from './provenance-layer.ts'

const marram = buildSystem(marramHouse)

test('[BLD17] a part is as sure as the least sure of its facts', () => {
  const heater = { id: 'h', kind: 'storage-heater' as const, volumeL: 500, setpointC: 60 }
  expect(weakestKnown({ ...heater, provenance: { default: 'seen' } })).toBe('seen')
  expect(weakestKnown({ ...heater, provenance: { default: 'seen', volumeL: 'told', setpointC: 'drawn' } })).toBe(
    'drawn',
  )
  expect(weakestKnown({ ...heater, provenance: { default: 'guessed', volumeL: 'seen' } })).toBe('guessed')
  expect(weakestKnown({ ...heater, provenance: { volumeL: 'seen' } })).toBeUndefined()
  expect(weakestKnown(heater)).toBeUndefined()
})

test('[BLD17] the drawing shows how each component is known, and explains what it shows', () => {
  const seen = marram.components.map((one) =>
    one.id === 'shower-c605' ? { ...one, provenance: { default: 'seen' as const } } : one,
  )
  const layer = provenanceLayer({ ...marram, components: seen })
  expect(layer.marks.find((mark) => mark.component === 'shower-c605')).toMatchObject({
    form: 'disc',
    label: '605 shower: all seen',
  })
  expect(layer.legend?.map((one) => one.text)).toEqual(['all seen', 'something guessed'])
  expect(layer.marks).toHaveLength(marram.components.filter((one) => one.kind !== 'junction').length)
})

test('[BLD17] facts are counted by how they are known', () => {
  const counts = countKnown([{ ...marram.supply }])
  expect([...counts]).toEqual([['told', 3]])
})
