import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ConsignmentView, type CustodyView, custodyView } from '@rillmark/casebook/custody/custody-view.ts'
import type { SampleCustody } from '@rillmark/casebook/custody/sample-custody.ts'
import { KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { leftWords } from '@rillmark/casebook/custody/time-words.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Section } from '../kit/Section.tsx'
import { Split } from '../kit/Split.tsx'
import { useShow } from '../shell/useShow.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { useNow } from '../store/use-now.ts'
import { BoxActs } from './BoxActs.tsx'
import { BoxSide } from './BoxSide.tsx'
import { BoxTable } from './BoxTable.tsx'
import './custody.css'
import { KeepReceiptDialog } from './KeepReceiptDialog.tsx'
import { OpenBoxDialog } from './OpenBoxDialog.tsx'
import { PackPart } from './PackPart.tsx'
import { SampleTable } from './SampleTable.tsx'
import { SplitDialog } from './SplitDialog.tsx'
import { UnpackDialog } from './UnpackDialog.tsx'

const FEW = 6

/** What is in which box, who holds it, how long it has left, how warm it got. */
export function CustodyScreen(): ReactNode {
  const { state, version } = useInvestigation()
  const nowMs = useNow()
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const view = useMemo(() => custodyView(state, nowMs), [version, nowMs])
  const [picked, setPicked] = useState(useShow())
  const [opening, setOpening] = useState(false)
  const box = view.consignments.find(({ code }) => code === picked) ?? firstOpen(view)
  const open = (
    <Button kind={box === undefined ? 'primary' : 'quiet'} onPress={() => setOpening(true)}>
      Open a consignment
    </Button>
  )
  const dialog = opening && (
    <OpenBoxDialog
      onOpened={(code) => {
        setPicked(code)
        setOpening(false)
      }}
      onClose={() => setOpening(false)}
    />
  )
  if (box === undefined)
    return (
      <Page>
        <PageHead title={headline(view)} name="Custody" />
        {view.loose.length === 0 ? <NothingCollected /> : <NothingPacked view={view} open={open} />}
        {dialog}
      </Page>
    )
  return (
    <Split asideLabel={`About ${box.code}`} aside={<BoxSide key={box.code} box={box} />}>
      <div className="stack">
        <PageHead title={headline(view)} name="Custody" lead={leadOf(view)} actions={open} />
        <Conflicts />
        <BoxTable boxes={view.consignments} selected={box.code} onSelect={setPicked} />
        <BoxContent key={box.code} box={box} view={view} />
      </div>
      {dialog}
    </Split>
  )
}

function BoxContent({ box, view }: { readonly box: ConsignmentView; readonly view: CustodyView }): ReactNode {
  const [takingOut, setTakingOut] = useState<string>()
  const [splitting, setSplitting] = useState<SampleCustody>()
  const [keeping, setKeeping] = useState<string>()
  // on a phone a long list would push the chain of custody out of reach
  const [unfolded] = useState(() => box.samples.length <= FEW || matchMedia('(min-width: 721px)').matches)
  const isOpen = box.seal === undefined && box.stage !== 'received'
  return (
    <Section title={`In ${box.code}`} aside={`${box.samples.length} samples`}>
      <BoxActs box={box} />
      {isOpen && <PackPart code={box.code} loose={view.loose} onSplit={setSplitting} />}
      <Disclosure summary={`The samples in ${box.code}`} open={unfolded}>
        <SampleTable
          caption={`Samples in ${box.code}`}
          samples={box.samples}
          onTakeOut={isOpen ? setTakingOut : undefined}
          onSplit={isOpen ? setSplitting : undefined}
          onReceipt={setKeeping}
          empty={<p className="quiet">Nothing is in it yet. Type the first label above.</p>}
        />
      </Disclosure>
      {splitting !== undefined && <SplitDialog sample={splitting} onClose={() => setSplitting(undefined)} />}
      {keeping !== undefined && <KeepReceiptDialog label={keeping} onClose={() => setKeeping(undefined)} />}
      {takingOut !== undefined && (
        <UnpackDialog consignment={box.code} label={takingOut} onClose={() => setTakingOut(undefined)} />
      )}
    </Section>
  )
}

/** Entries that came past the rules and do not fit: they count for nothing, and are not hidden. */
function Conflicts(): ReactNode {
  const { conflicts } = useInvestigation().state.custody
  if (conflicts.length === 0) return null
  return (
    <ProblemList
      kind="warn"
      title={`${conflicts.length} ${conflicts.length === 1 ? 'entry' : 'entries'} of custody that ${conflicts.length === 1 ? 'does' : 'do'} not fit and ${conflicts.length === 1 ? 'does' : 'do'} not count`}
      problems={conflicts.map(({ entry, issues: [first] }) => ({
        path: KINDS[entry.kind].title,
        expected: first?.expected ?? '',
        received: first?.received,
      }))}
    />
  )
}

function NothingCollected(): ReactNode {
  return (
    <EmptyState title="Nothing to pack yet">
      <p>
        Samples collected in Fieldwork are packed here into consignments, sealed, handed over and followed to the
        laboratory. Their hold time runs from the moment each was collected.
      </p>
    </EmptyState>
  )
}

function NothingPacked({ view, open }: { readonly view: CustodyView; readonly open: ReactNode }): ReactNode {
  const [splitting, setSplitting] = useState<SampleCustody>()
  return (
    <>
      <EmptyState title="No box yet" action={open}>
        <p>Open a consignment for each cooler, then pack by scanning or typing the labels on the bottles.</p>
      </EmptyState>
      <Section title="Waiting to be packed" aside={`${view.loose.length} samples`}>
        <SampleTable caption="Samples waiting to be packed" samples={view.loose} onSplit={setSplitting} />
        {splitting !== undefined && <SplitDialog sample={splitting} onClose={() => setSplitting(undefined)} />}
      </Section>
    </>
  )
}

/** The box most in need of a hand: the one whose clock ends first, else the last opened. */
function firstOpen({ consignments }: CustodyView): ConsignmentView | undefined {
  const running = consignments
    .filter(({ next }) => next !== undefined)
    .sort((a, b) => (a.next?.deadlineMs ?? 0) - (b.next?.deadlineMs ?? 0))
  return running[0] ?? consignments.at(-1)
}

function headline({ consignments, loose, exceptions }: CustodyView): string {
  const next = [...consignments].flatMap(({ code, next: sample }) =>
    sample?.leftMs === undefined ? [] : [{ code, leftMs: sample.leftMs }],
  )
  const first = next.sort((a, b) => a.leftMs - b.leftMs)[0]
  if (first !== undefined) return `${first.code}: ${leftWords(first.leftMs, 'hold time')}`
  if (loose.length > 0) return `${counted(loose.length, 'sample')} to pack`
  if (consignments.length === 0) return 'Custody'
  if (exceptions.length === 0) return 'Every sample reached the laboratory and was accepted'
  const rejected = exceptions.filter((sample) => sample.rejected).length
  const noted = `${exceptions.length} not simply accepted`
  return `Every sample reached the laboratory; ${rejected === 0 ? noted : `${noted}, ${rejected} rejected`}`
}

function leadOf({ consignments, loose, late }: CustodyView): string {
  const away = consignments.filter(({ stage }) => stage !== 'received' && stage !== 'with the other party').length
  return [
    `${counted(consignments.length, 'consignment')}, ${away === 0 ? 'all received' : `${away} not yet received`}`,
    ...(loose.length === 0 ? [] : [`${counted(loose.length, 'sample')} in no box`]),
    ...(late.length === 0 ? [] : [`${late.length} past the hold time: flagged, not thrown away`]),
  ].join(' · ')
}
