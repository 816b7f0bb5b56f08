import type { DemoDesk } from '../desk.ts'

export function openInvestigation(desk: DemoDesk): void {
  desk.write(
    'investigation.opened',
    {
      title: 'Marram House',
      locality: 'Quillhaven',
      setting: 'long-term care',
      openedOn: '2026-03-02',
      reason:
        'Two residents with Legionnaires’ disease in three weeks, both living on the same side of the house; a third pneumonia is being tested. The home was their only place of stay.',
    },
    { at: '2026-03-02T09:10' },
  )
  desk.write(
    'note.written',
    {
      text: 'Who balanced the hot return after the pump was replaced in January?',
      about: 'building',
      purpose: 'open question',
    },
    { at: '2026-03-02T11:40' },
  )
}
