import { derive } from '../state/derive.ts'
import { entryMaker } from './entry-maker.ts'

const { make } = entryMaker('marram-house')
export const aCase = (code: string, onsetDate?: string) =>
  make('case.recorded', {
    code,
    ...(onsetDate === undefined ? {} : { onsetDate }),
    classification: 'confirmed',
    link: 'not judged',
    isolate: 'not known',
  })
export const stay = (caseCode: string, { place, from, to }: { place: string; from: string; to: string }) =>
  make('exposure.recorded', { caseCode, place, kind: 'stay', from, to })

export const { cases: threeCases } = derive('marram-house', [
  aCase('C1', '2026-02-15'),
  aCase('C2', '2026-02-20'),
  aCase('C3'),
  stay('C1', { place: 'North wing', from: '2026-01-01', to: '2026-02-15' }),
  stay('C2', { place: 'north wing ', from: '2026-02-12', to: '2026-02-14' }),
  stay('C2', { place: 'Spa', from: '2026-02-15', to: '2026-02-16' }),
  stay('C3', { place: 'Spa', from: '2026-02-15', to: '2026-02-16' }),
])
