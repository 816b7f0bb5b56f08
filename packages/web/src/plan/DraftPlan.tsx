import { counted } from '@rillmark/casebook/units/counted.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Plan } from '@rillmark/casebook/plan/plan-file.ts'
import { nextRound } from '@rillmark/casebook/plan/plan-input-from-state.ts'
import { type ReactNode, useState } from 'react'
import { AtHand } from '../calculators/AtHand.tsx'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { Note } from '../kit/Note.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { AdoptDialog } from './AdoptDialog.tsx'
import { BudgetSliders } from './BudgetSliders.tsx'
import { DraftPoints } from './DraftPoints.tsx'
import { KitTable } from './KitTable.tsx'
import { OwnProcedures } from './OwnProcedures.tsx'
import { type PlanDraft, usePlanDraft } from './plan-draft.ts'
import { planOffers } from './plan-offers.ts'
import { PointDialog } from './PointDialog.tsx'
import { WhatItMisses } from './WhatItMisses.tsx'

interface Asking {
  readonly kind: 'add' | 'take out'
  readonly point?: { readonly component: string; readonly title: string } | undefined
}

export function DraftPlan(props: {
  readonly system: WaterSystem
  readonly onAdopted: (round: string) => void
}): ReactNode {
  const draft = usePlanDraft()
  const [asking, setAsking] = useState<Asking>()
  const [adopting, setAdopting] = useState(false)
  const { state } = useInvestigation()
  if (draft === undefined) return null
  const { plan } = draft
  return (
    <>
      <PageHead
        title={headline(plan)}
        name="Plan"
        lead="Sampling comes before any flushing, heating or disinfection: what is treated first can no longer be linked to a patient."
        actions={
          <ButtonRow>
            <Button kind="primary" onPress={() => setAdopting(true)} disabled={plan.stops.length === 0}>
              Adopt as round {nextRound(state)}
            </Button>
            <Button onPress={() => setAsking({ kind: 'add' })}>Add a point</Button>
          </ButtonRow>
        }
      />
      <div className="plan-top">
        <Section title="Budget" aside={budgetWords(plan)}>
          <BudgetSliders draft={draft} />
          <KeptWords draft={draft} />
          <Notes plan={plan} />
        </Section>
        <Section title="What this plan can miss">
          <WhatItMisses plan={plan} />
        </Section>
      </div>
      <DraftPoints
        system={props.system}
        plan={plan}
        changed={changedOf(draft)}
        onAdd={(point) => setAsking({ kind: 'add', point })}
        onTakeOut={(point) => setAsking({ kind: 'take out', point })}
        onUndo={draft.undo}
      />
      <Section title="Kit">
        <Disclosure summary="What to pack for this plan">
          <KitTable plan={plan} />
        </Disclosure>
      </Section>
      <Section title="Procedures">
        <Disclosure summary="Use procedures of your own">
          <OwnProcedures />
        </Disclosure>
      </Section>
      <AtHand about="plan" offers={planOffers(props.system, plan)} />
      <Dialogs
        {...{ draft, asking, adopting, setAsking, setAdopting }}
        system={props.system}
        onAdopted={props.onAdopted}
      />
    </>
  )
}

interface DialogsProps {
  readonly draft: PlanDraft
  readonly system: WaterSystem
  readonly asking: Asking | undefined
  readonly adopting: boolean
  readonly setAsking: (asking: Asking | undefined) => void
  readonly setAdopting: (adopting: boolean) => void
  readonly onAdopted: (round: string) => void
}

function Dialogs(props: DialogsProps): ReactNode {
  const { draft, asking, adopting, setAsking, setAdopting } = props
  const { say } = useToasts()
  return (
    <>
      {asking !== undefined && (
        <PointDialog
          title={
            asking.kind === 'add' ? `Add ${asking.point?.title ?? 'a point'}` : `Take out ${asking.point?.title ?? ''}`
          }
          act={asking.kind === 'add' ? 'Add' : 'Take out'}
          hint={asking.kind === 'add' ? 'Why it is worth a sample.' : 'Why it is not sampled; its cost stays in view.'}
          point={asking.point}
          components={props.system.components}
          onClose={() => setAsking(undefined)}
          onDone={(point) => {
            if (asking.kind === 'add') draft.add(point)
            else draft.takeOut(point)
            setAsking(undefined)
            say(asking.kind === 'add' ? 'Added to the plan.' : 'Taken out of the plan.', {
              undo: () => draft.undo(point.component),
            })
          }}
        />
      )}
      {adopting && (
        <AdoptDialog
          plan={draft.plan}
          onClose={() => setAdopting(false)}
          onAdopted={(round) => {
            setAdopting(false)
            draft.drop()
            say(`Round ${round} is adopted; its labels are numbered.`)
            props.onAdopted(round)
          }}
        />
      )}
    </>
  )
}

function headline({ totals, stops, leftOut }: Plan): string {
  if (stops.length === 0) return 'Nothing can be sampled with this budget'
  const left =
    leftOut.length === 0 ? 'no obligatory point left out' : `${counted(leftOut.length, 'obligatory point')} left out`
  return `${counted(totals.samples, 'sample')} at ${counted(stops.length, 'stop')}, ${left}`
}

const budgetWords = ({ totals, budget }: Plan): string =>
  `${totals.samples} of ${budget.samples} samples used · ${totals.hoursPerTeam.toFixed(1)} h a team`

function changedOf({ asked, excluded }: PlanDraft): ReadonlySet<string> {
  return new Set([...asked, ...excluded].map(({ component }) => component))
}

/** Where the draft is, before it is adopted. */
function KeptWords({ draft }: { readonly draft: PlanDraft }): ReactNode {
  if (!draft.kept)
    return <Note kind="warn">This browser keeps no drafts: adopt the plan before you leave or reload the page.</Note>
  return (
    <p className="plan-kept quiet">
      The draft is kept on this device until it is adopted.
      {draft.begun && (
        <Button kind="text" onPress={draft.drop}>
          Start it again
        </Button>
      )}
    </p>
  )
}

function Notes({ plan: { notes = [] } }: { readonly plan: Plan }): ReactNode {
  if (notes.length === 0) return null
  return (
    <div className="plan-notes">
      <h3 className="plan-small-head">What the plan does not know</h3>
      <ul className="plan-lines">
        {notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </div>
  )
}
