import { placesWords } from '@rillmark/casebook/control/proof-words.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ControlView, controlView, type MeasureView, STAGES } from '@rillmark/casebook/control/control-view.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { AtHand } from '../calculators/AtHand.tsx'
import { Button } from '../kit/Button.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { Split } from '../kit/Split.tsx'
import { useShow } from '../shell/useShow.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { localDay } from '../store/local-time.ts'
import { useNow } from '../store/use-now.ts'
import { CompleteDialog } from './CompleteDialog.tsx'
import { controlOffers } from './control-offers.ts'
import './control.css'
import { MeasureSide } from './MeasureSide.tsx'
import { MeasureTable } from './MeasureTable.tsx'
import { OrderForm } from './OrderForm.tsx'
import { ProofTable } from './ProofTable.tsx'

const STAGE_TITLES = {
  immediate: 'Immediate: protects people now',
  remediation: 'Remediation: removes the cause',
  'long-term': 'Long-term: keeps it away',
} as const

/** What must be done by whom by when, to what target, and the proof at each outlet. */
export function ControlScreen(): ReactNode {
  const { state, version } = useInvestigation()
  const today = localDay(useNow())
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const view = useMemo(() => controlView(state, today), [version, today])
  const [picked, setPicked] = useState(useShow())
  const [ordering, setOrdering] = useState(false)
  const done = (id?: string): void => {
    setOrdering(false)
    if (id !== undefined) setPicked(id)
  }
  if (ordering) return <OrderForm onDone={done} />
  const order = (
    <Button kind="primary" onPress={() => setOrdering(true)}>
      Order a measure
    </Button>
  )
  const selected = view.measures.find(({ id }) => id === picked) ?? mostPressing(view)
  if (selected === undefined) return <NoMeasures order={order} />
  return (
    <Split asideLabel={`About ${selected.title}`} aside={<MeasureSide key={selected.id} view={selected} />}>
      <div className="stack">
        <PageHead title={headline(view)} name="Control" actions={order} />
        {STAGES.map((stage) => {
          const measures = view.measures.filter((each) => each.stage === stage)
          return (
            <Section key={stage} title={STAGE_TITLES[stage]}>
              {measures.length === 0 ? (
                <p className="quiet">Nothing ordered.</p>
              ) : (
                <MeasureTable
                  caption={`Measures, ${stage}`}
                  measures={measures}
                  selected={selected.id}
                  onSelect={setPicked}
                />
              )}
            </Section>
          )
        })}
        <Proofs key={selected.id} view={selected} today={today} />
        <AtHand about="control" offers={controlOffers(state.building.system)} />
      </div>
    </Split>
  )
}

function NoMeasures({ order }: { readonly order: ReactNode }): ReactNode {
  const { state } = useInvestigation()
  return (
    <Page>
      <PageHead title="Control" />
      <EmptyState title="No measures yet" action={order}>
        <p>
          Record what must be done, where, by whom and when: first what protects people now, then what removes the
          cause, then what keeps it away. Take the samples before the water is changed.
        </p>
      </EmptyState>
      <AtHand about="control" offers={controlOffers(state.building.system)} />
    </Page>
  )
}

function Proofs({ view, today }: { readonly view: MeasureView; readonly today: string }): ReactNode {
  const [completing, setCompleting] = useState(false)
  const open = view.measure.completed === undefined
  return (
    <Section
      title={`Proof: ${view.title}`}
      aside={view.places.length === 0 ? undefined : placesWords(view.measure, view)}
    >
      <ProofTable view={view} open={open} />
      {open && (
        <div>
          <Button onPress={() => setCompleting(true)}>Complete this measure</Button>
        </div>
      )}
      {completing && <CompleteDialog view={view} today={today} onClose={() => setCompleting(false)} />}
    </Section>
  )
}

/** The latest one first, then the one due first, then the last ordered. */
function mostPressing({ measures }: ControlView): MeasureView | undefined {
  const open = measures.filter(({ measure }) => measure.completed === undefined)
  const due = (view: MeasureView): string => view.measure.ordered.body.dueOn ?? '9999'
  return open.toSorted((a, b) => b.daysLate - a.daysLate || (due(a) < due(b) ? -1 : 1))[0] ?? measures.at(-1)
}

function headline({ measures, open, late }: ControlView): string {
  if (open === 0) return `${counted(measures.length, 'measure')} ordered, none open`
  return late === 0 ? `${counted(open, 'measure')} open` : `${counted(open, 'measure')} open, ${late} late`
}
