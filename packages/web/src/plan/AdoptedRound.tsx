import { localDate } from '@rillmark/casebook/units/local-time.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import type { Stop } from '@rillmark/casebook/plan/plan-file.ts'
import { type ReactNode, useCallback, useMemo, useState } from 'react'
import { AtHand } from '../calculators/AtHand.tsx'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { AmendRound, type Asking } from './AmendRound.tsx'
import { KitTable } from './KitTable.tsx'
import { OwedNote } from './OwedNote.tsx'
import { Papers } from './Papers.tsx'
import { planOffers } from './plan-offers.ts'
import { PlanSides } from './PlanSides.tsx'
import { StopList, type StopLine } from './StopList.tsx'
import { WhatItMisses } from './WhatItMisses.tsx'

/** A round as it was adopted: stops with their labels, its papers and kit. */
export function AdoptedRound({
  adopted,
  system,
}: {
  readonly adopted: EffectiveEntry<'plan.adopted'>
  readonly system: WaterSystem
}): ReactNode {
  const { round, plan } = adopted.body
  const lines = useMemo(() => plan.stops.map((stop, at): StopLine => ({ stop, number: at + 1 })), [plan])
  const { state } = useInvestigation()
  const [asking, setAsking] = useState<Asking>()
  const takeOut = useCallback((stop: Stop) => setAsking({ kind: 'take out', stop }), [])
  const begun = [...state.fieldwork.visits.values()].some((visit) => visit.round === round)
  const left = useMemo(() => plan.leftOut.map(({ stop, cost }): StopLine => ({ stop, remark: cost })), [plan])
  return (
    <>
      <PageHead
        title={`Round ${round}: ${plan.totals.samples} samples at ${plan.stops.length} stops`}
        name="Plan"
        lead={
          begun
            ? 'Work on it has begun: what was done is judged against this plan.'
            : 'Adopted: the labels are numbered, Fieldwork leads through the stops.'
        }
        actions={
          <ButtonRow>
            <Button onPress={() => setAsking({ kind: 'add' })}>Add a point</Button>
            <Button onPress={() => setAsking({ kind: 'facts' })}>Change date or teams</Button>
          </ButtonRow>
        }
      />
      <OwedNote round={round} />
      <div className="plan-top">
        <Section title="Adopted">
          <RoundFacts adopted={adopted} />
          <Papers round={round} />
        </Section>
        <Section title="What it can miss">
          <WhatItMisses plan={plan} />
        </Section>
      </div>
      <PlanSides system={system} plan={plan}>
        {(pointing) => (
          <>
            <StopList
              {...pointing}
              label="Stops in walking order"
              lines={lines}
              act={{ words: 'Take out', onPress: takeOut }}
              empty="This round has no stops."
            />
            {left.length > 0 && (
              <Disclosure summary={`Left out when it was adopted: ${left.length}`}>
                <StopList {...pointing} label="Points left out" lines={left} empty="" />
              </Disclosure>
            )}
          </>
        )}
      </PlanSides>
      <Kit plan={plan} />
      <AtHand about="plan" offers={planOffers(system, plan)} />
      {asking !== undefined && (
        <AmendRound adopted={adopted} system={system} asking={asking} onClose={() => setAsking(undefined)} />
      )}
    </>
  )
}

function Kit({ plan }: { readonly plan: EffectiveEntry<'plan.adopted'>['body']['plan'] }): ReactNode {
  return (
    <Section title="Kit">
      <Disclosure summary="What to pack">
        <KitTable plan={plan} />
      </Disclosure>
    </Section>
  )
}

function RoundFacts({ adopted }: { readonly adopted: EffectiveEntry<'plan.adopted'> }): ReactNode {
  const { purpose, plan, teams, scheduledOn } = adopted.body
  const times = adopted.amendments === 1 ? 'once' : `${adopted.amendments} times`
  const changed = adopted.amendments > 0 ? `, amended ${times}` : ''
  return (
    <KeyValue
      facts={[
        { key: 'Purpose', value: purpose },
        { key: 'Planned for', value: scheduledOn ?? 'no date yet' },
        { key: 'Teams', value: teams.length === 0 ? 'none named' : teams.join(', ') },
        { key: 'By', value: adopted.author, note: `${localDate(adopted)}${changed}` },
        { key: 'Time', value: `${plan.totals.hoursPerTeam.toFixed(1)} h a team` },
      ]}
    />
  )
}
