import type { DemoDesk } from '../desk.ts'
import type { Found, LabReport } from './laboratory.ts'
import { spread } from './spread.ts'

type Sample = Parameters<LabReport['found']>[0]

const isSwab = ({ sampleKind }: Sample): boolean => sampleKind === 'first-flush-swab'
const clean = (sample: Sample): Found =>
  isSwab(sample) || sample.sampleKind === 'field-blank' ? 'not detected' : '< 0.05'

/** Before anything was done: riser C is colonised from the second floor up, thinly at its foot; the rest is not. */
export function foundInFirstRound(overgrown: string): LabReport['found'] {
  return (sample) => {
    const { stop, label } = sample
    if (label === overgrown) return 'overgrown'
    if (stop.riser !== 'C') return clean(sample)
    if (stop.component?.startsWith('return-') === true) return 4.2
    const floor = stop.floor ?? 0
    if (floor < 2) return clean(sample)
    if (isSwab(sample)) return 'detected'
    return Number((spread(`${label} count`, { from: 4, to: 9 }) * (floor - 1) * 0.9).toFixed(1))
  }
}

/** After the first remediation: one shower at the top of riser C still grows. */
export const foundInSecondRound: LabReport['found'] = (sample) => {
  if (sample.stop.component !== 'shower-c605') return clean(sample)
  return isSwab(sample) ? 'detected' : 0.6
}

/** After the dead leg was taken out: nothing detected. */
export const foundInThirdRound: LabReport['found'] = clean

/** Isolates of two cases and of the building, as far as the reference laboratory typed them. */
export function recordIsolates(desk: DemoDesk, labels: { shower: string; tap: string }): void {
  const at = '2026-03-24T10:00'
  const typed = { species: 'L. pneumophila', serogroup: '1' }
  const laboratory = 'Quillhaven Reference Laboratory'
  desk.write(
    'isolate.recorded',
    { code: 'I-MH-01', from: { origin: 'case', caseCode: 'MH-01' }, ...typed, sequenceType: '9901', laboratory },
    { at },
  )
  desk.write(
    'isolate.recorded',
    {
      code: 'I-MH-02',
      from: { origin: 'case', caseCode: 'MH-02' },
      ...typed,
      laboratory,
      notes: 'Typing not finished.',
    },
    { at },
  )
  desk.write(
    'isolate.recorded',
    { code: 'I-605', from: { origin: 'sample', label: labels.shower }, ...typed, sequenceType: '9901', laboratory },
    { at },
  )
  desk.write(
    'isolate.recorded',
    { code: 'I-405', from: { origin: 'sample', label: labels.tap }, ...typed, sequenceType: '9901', laboratory },
    { at },
  )
}
