import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import {
  type ReactNode,
  type RefObject,
  useCallback,
  useDeferredValue,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react'
import { RiserDiagram } from '../drawing/RiserDiagram.tsx'
import { Split } from '../kit/Split.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import { useShow } from '../shell/useShow.ts'
import { useDerived } from '../store/investigation.tsx'
import { historyLayer, knownLayer, sweepLayer } from './layers.ts'
import { ChangesAside } from './ChangesAside.tsx'
import { Overview, type OverviewProps } from './Overview.tsx'
import { PartDetail } from './PartDetail.tsx'
import { PipesDetail } from './PipesDetail.tsx'
import type { PartFilter } from './part-filter.ts'
import { EVERY_PART } from './part-filter.ts'
import { PredictedTab } from './PredictedTab.tsx'
import { SweepAside } from './SweepAside.tsx'

export type Selected =
  | { readonly kind: 'part'; readonly id: string }
  | { readonly kind: 'pipes'; readonly ids: readonly string[] }

const FACES = [
  { id: 'described', label: 'As described' },
  { id: 'known', label: 'How it is known' },
  { id: 'predicted', label: 'Predicted' },
  { id: 'sweep', label: 'What wets air' },
  { id: 'changes', label: 'What changed lately' },
] as const
type Face = (typeof FACES)[number]['id']

export interface InHandProps {
  readonly system: WaterSystem
  readonly onDescribeAnew: () => void
}

/** The described building: the drawing stays, the layer on it and what stands beside it change together. */
export function BuildingInHand({ system, onDescribeAnew }: InHandProps): ReactNode {
  const [face, setFace] = useState<Face>('described')
  const [selected, setSelected] = useSelected(system)
  const [lit, setLit] = useState<string>()
  const [picked, setPicked] = useState<ReadonlySet<string>>()
  const [filter, setFilter] = useState<PartFilter>(EVERY_PART)
  // A large drawing follows an edit at its own pace.
  const drawn = useDeferredValue(system)
  const layer = useLayer(face, drawn)
  const highlight = useMemo(() => picked ?? new Set(lit === undefined ? [] : [lit]), [picked, lit])
  const aside = useRef<HTMLDivElement>(null)

  const choose = useCallback(
    (next: Selected | undefined): void => {
      setSelected(next)
      setLit(undefined)
      if (next !== undefined) setFace((now) => (now === 'known' ? now : 'described'))
    },
    [setSelected],
  )
  const tapped = (id: string): void => {
    if (picked === undefined) choose({ kind: 'part', id })
    else setPicked(toggled(picked, id))
  }
  const shown = face === 'described' || face === 'known' ? selected : undefined
  const acts = { onLit: setLit, onPick: setPicked, onSelect: choose, onFilter: setFilter }
  useStartAtTop()
  useArrive(aside, shown)

  return (
    <div className="building">
      <Tabs
        label="Layer of the drawing"
        tabs={FACES}
        selected={face}
        onSelect={(next) => {
          setPicked(undefined)
          setFace(next)
        }}
      >
        {face === 'predicted' ? (
          <PredictedTab system={system} selected={selected} onGoTo={choose} />
        ) : (
          <Split
            asideLabel={FACES.find(({ id }) => id === face)?.label ?? 'Building'}
            asideFirstOnPhone={face === 'sweep' || face === 'changes'}
            aside={
              <div className="building-aside" ref={aside} tabIndex={-1}>
                <Beside {...{ face, system, lit, picked, filter, onDescribeAnew }} selected={shown} {...acts} />
              </div>
            }
          >
            <RiserDiagram
              system={drawn}
              layer={layer}
              selected={shown?.kind === 'part' ? shown.id : undefined}
              onSelect={tapped}
              onSelectPipes={(ids) => choose({ kind: 'pipes', ids })}
              highlight={highlight}
              onHover={picked === undefined ? setLit : undefined}
            />
          </Split>
        )}
      </Tabs>
    </div>
  )
}

interface BesideProps extends Omit<OverviewProps, 'onHover'> {
  readonly face: Face
  readonly selected: Selected | undefined
  readonly onLit: (id: string | undefined) => void
  readonly picked: ReadonlySet<string> | undefined
  readonly onPick: (picked: ReadonlySet<string> | undefined) => void
}

/** What stands beside the drawing: a face of the building, or what is selected of it. */
function Beside(props: BesideProps): ReactNode {
  const { face, selected, system, onSelect, onLit } = props
  if (face === 'sweep') return <SweepAside system={system} onSelect={onSelect} onHover={onLit} />
  if (face === 'changes') return <ChangesAside {...props} onHover={onLit} />
  if (selected === undefined) return <Overview {...props} onHover={onLit} />
  return selected.kind === 'part' ? (
    <PartDetail key={selected.id} system={system} id={selected.id} onSelect={onSelect} onHover={onLit} />
  ) : (
    <PipesDetail key={selected.ids.join(' ')} system={system} ids={selected.ids} onSelect={onSelect} />
  )
}

/** On arrival the screen stands at its top: whoever has just described the building was far down a form. */
function useStartAtTop(): void {
  useEffect(() => {
    scrollTo(0, 0)
    document.querySelector('main')?.scrollTo(0, 0)
  }, [])
}

/** The row or button that was pressed is gone once facts take its place: the keyboard goes on from them, a phone scrolls to them. */
function useArrive(aside: RefObject<HTMLDivElement | null>, shown: Selected | undefined): void {
  useEffect(() => {
    if (shown === undefined) return
    if (document.activeElement === document.body) aside.current?.focus({ preventScroll: true })
    if (matchMedia('(max-width: 1080px)').matches) aside.current?.scrollIntoView({ block: 'start' })
  }, [aside, shown])
}

/** What is selected, as long as it is there. Find can ask for a part on arrival. */
function useSelected(system: WaterSystem) {
  const show = useShow()
  const [selected, setSelected] = useState<Selected | undefined>(
    show === undefined ? undefined : { kind: 'part', id: show },
  )
  const [asked, setAsked] = useState(show)
  if (show !== asked) {
    setAsked(show)
    if (show !== undefined) setSelected({ kind: 'part', id: show })
  }
  const there = useMemo(() => {
    if (selected?.kind === 'part') return system.components.some(({ id }) => id === selected.id)
    return selected === undefined || system.pipes.some(({ id }) => selected.ids.includes(id))
  }, [system, selected])
  return [there ? selected : undefined, setSelected] as const
}

function useLayer(face: Face, system: WaterSystem) {
  const known = useMemo(() => (face === 'known' ? knownLayer(system) : undefined), [face, system])
  const sweep = useDerived(sweepLayer)
  const history = useDerived(historyLayer)
  return face === 'known' ? known : face === 'sweep' ? sweep : face === 'changes' ? history : undefined
}

function toggled(set: ReadonlySet<string>, id: string): ReadonlySet<string> {
  const next = new Set(set)
  if (!next.delete(id)) next.add(id)
  return next
}
