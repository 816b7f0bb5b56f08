import { expect, it } from 'vitest'
import { missingToStart, type StartTyped } from './missing-to-start.ts'

const whole: StartTyped = {
  name: 'R. Example',
  title: 'Marram House',
  locality: '',
  setting: 'hotel',
  openedOn: '2026-03-14',
  reason: 'Two guests ill',
}
const paths = (typed: Partial<StartTyped>) => missingToStart({ ...whole, ...typed }).map(({ path }) => path)

it('names all that is missing at once, in the order of the fields', () => {
  expect(paths({ name: '', title: '  ', setting: '', openedOn: '', reason: '' })).toEqual([
    'Building or place',
    'Setting',
    'Opened on',
    'Why you were called',
    'Who is writing',
  ])
})

it('a locality may be left out; a day that can’t be read is named', () => {
  expect(paths({})).toEqual([])
  expect(paths({ openedOn: '2026-02-30' })).toEqual(['Opened on'])
})
