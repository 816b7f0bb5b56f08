import type { ReactNode } from 'react'
import { Bars } from '../kit/Bars.tsx'
import { Button } from '../kit/Button.tsx'
import { Caution } from '../kit/Caution.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Legend } from '../kit/Legend.tsx'
import { Meter } from '../kit/Meter.tsx'
import { Note } from '../kit/Note.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Progress } from '../kit/Progress.tsx'
import { ReasonList } from '../kit/ReasonList.tsx'
import { Section } from '../kit/Section.tsx'
import { Tag } from '../kit/Tag.tsx'
import { Track } from '../kit/Track.tsx'

export function MessagesGallery(): ReactNode {
  return (
    <>
      <SaidAtThePlace />
      <Measures />
      <StatesAndReasons />
    </>
  )
}

function SaidAtThePlace(): ReactNode {
  return (
    <Section title="Said at the place">
      <Caution>Hot water can scald in seconds above 60 °C. Stand aside of the stream, keep the mist down.</Caution>
      <Note>
        Swab and first flush tell of the fitting and its last metres; they are not a concentration in the system's
        water.
      </Note>
      <Note kind="warn">Two results were collected after the flush of 12 March.</Note>
      <Note kind="bad">The file could not be read: it is empty. Ask the laboratory to send it again.</Note>
      <ProblemList
        problems={[
          { path: 'components[14].floor', expected: 'a whole number', received: 'second' },
          { path: 'pipes[3].to', expected: 'the id of a component', received: 'heater-3' },
        ]}
        onJump={() => undefined}
      />
      <EmptyState title="No stops yet" action={<Button kind="primary">Make a plan</Button>}>
        <p>Adopt a plan first. Its stops then come one at a time, in the order that keeps the samples sound.</p>
      </EmptyState>
    </Section>
  )
}

function Measures(): ReactNode {
  return (
    <Section title="Measures">
      <Bars
        label="where it probably grows"
        lines={[
          { id: 'c', label: 'one riser (C)', fraction: 0.84, text: '0.84', interval: { lower: 0.7, upper: 0.93 } },
          { id: 'h', label: 'heater and hot system', fraction: 0.11, text: '0.11' },
          { id: 'l', label: 'local outlets only', fraction: 0.04, text: '0.04' },
        ]}
      />
      <Meter label="Hold time of box 2" fraction={0.62} text="9 h 20 min left" />
      <Meter label="Hold time of box 1" fraction={0.93} text="1 h 40 min left" kind="warn" />
      <Progress label="Reading results.xlsx" fraction={0.4} detail="120 of 300 rows" onCancel={() => undefined} />
      <Track done={4} of={7} label="step 5 of 7" />
      <p className="figure">
        44.6 <small>°C</small>
      </p>
    </Section>
  )
}

function StatesAndReasons(): ReactNode {
  return (
    <Section title="States and reasons">
      <Legend
        items={[
          { shape: 'open', label: 'not detected' },
          { shape: 'full', label: 'detected, CFU/mL beside it', kind: 'bad' },
          { shape: 'dashed', label: 'waiting' },
          { shape: 'cross', label: 'not interpretable', kind: 'faint' },
        ]}
        aside="small dot: not sampled"
      />
      <div className="button-row">
        <Tag shape="check" kind="accent">
          adopted
        </Tag>
        <Tag shape="triangle" kind="warn">
          after treatment
        </Tag>
        <Tag shape="full" kind="bad">
          detected
        </Tag>
        <Tag shape="dash" kind="faint">
          not compared
        </Tag>
      </div>
      <ReasonList
        reasons={[
          {
            id: '1',
            mark: '+',
            children: (
              <>
                <b>5 of 6</b> first-flush samples on riser C detected; <b>0 of 9</b> elsewhere
              </>
            ),
          },
          {
            id: '2',
            mark: '−',
            children: (
              <>
                Heater 1 drain <b>not detected</b> in 1 L; heater water suppresses culture
              </>
            ),
          },
        ]}
      />
      <Disclosure summary="Show the working">V = π · r² · L for each length, added up.</Disclosure>
    </Section>
  )
}
