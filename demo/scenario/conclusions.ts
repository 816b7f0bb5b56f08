import type { DemoDesk } from '../desk.ts'

export function chooseCriteria(desk: DemoDesk, version: string): void {
  desk.write(
    'criteria.chosen',
    { criteria: 'us-cdc', version, reason: 'Agreed with the county on the first day.' },
    { at: '2026-03-03T11:30' },
  )
}

/** What was concluded of the source after the first round, with evidence for and against. */
export function concludeOnSource(desk: DemoDesk, labels: { returnC: string; heater: string; shower: string }): void {
  desk.write(
    'finding.concluded',
    {
      statement:
        'The hot water of riser C is colonised from the fourth floor up at least, because its return hardly flows and comes back at 42 °C.',
      strength: 'strong',
      evidence: [
        {
          ref: labels.shower,
          words:
            'First flush and bulk positive at every outlet sampled on floors 4 to 6; floor 1 not detected, floors 2 and 3 not sampled',
          speaks: 'for',
        },
        {
          ref: labels.returnC,
          words: 'Return C positive and cooler than the other returns by 13 K or more',
          speaks: 'for',
        },
        { ref: labels.heater, words: 'Heater drains not detected in 1 L each', speaks: 'against' },
      ],
      wouldChangeIt: 'Positive outlets on another riser, or a heater outlet that grows.',
      components: ['return-main-c', 'shower-c605', 'shower-c405'],
    },
    { at: '2026-03-16T10:20' },
  )
}

/** What the typed isolates allow to be said. */
export function concludeOnIsolates(desk: DemoDesk): void {
  desk.write(
    'finding.concluded',
    {
      statement:
        'The isolates of case MH-01 and of showers on riser C are the same by serogroup and sequence type. That fits exposure in the house; it does not prove it, and the other cases can’t be compared.',
      strength: 'moderate',
      evidence: [{ ref: 'I-MH-01', words: 'Same sequence type as I-605 and I-405', speaks: 'for' }],
      wouldChangeIt: 'A genome comparison, or the finished typing of MH-02.',
      components: [],
    },
    { at: '2026-03-24T10:30' },
  )
}

export function writeReportTexts(desk: DemoDesk): void {
  desk.write(
    'report.written',
    {
      section: 'summary',
      text: 'Five residents of Marram House fell ill within three weeks. Riser C of the hot water was colonised; its return valve was nearly closed after works in January. The return was balanced and the riser disinfected. One shower stayed positive until a dead leg behind it was removed. Follow-up sampling goes on.',
    },
    { at: '2026-05-11T14:00' },
  )
  desk.write(
    'report.written',
    {
      section: 'recommendations',
      text: 'Keep the return of every riser at 50 °C or more and read it monthly. Log works on the hot water. Ask for respiratory cultures with every pneumonia.',
    },
    { at: '2026-05-11T14:10' },
  )
}
