import { derive } from '@rillmark/casebook/state/derive.ts'
import { expect, it } from 'vitest'
import { nextBoxCode } from './next-box-code.ts'

const { custody } = derive('marram-house', [])
const devices = (...ids: string[]) => new Map(ids.map((id) => [id, { role: 'sampler' }])) as never

it('counts boxes where nobody else writes', () => {
  expect(nextBoxCode({ custody, devices: devices('phone-1') }, { device: 'phone-1', author: 'L. Reed' })).toBe('Box 1')
})

it('adds the initials of whoever packs where others write too', () => {
  const team = devices('phone-1', 'phone-2')
  expect(nextBoxCode({ custody, devices: team }, { device: 'phone-1', author: 'L. Reed' })).toBe('Box LR 1')
  expect(nextBoxCode({ custody, devices: team }, { device: 'phone-1', author: '' })).toBe('Box 1')
})
