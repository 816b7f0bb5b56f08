import type { QuickDescription } from '@rillmark/casebook/building/quick-description.ts'
import { quickDescriptionSchema } from '@rillmark/casebook/building/quick-description.ts'
import type { DisinfectantKind } from '@rillmark/casebook/building/water-system.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { readTypedQuantity } from '../form/typed-quantity.ts'

/** Outlets by kind, each number as typed. */
export type CountsDraft = Readonly<Record<string, string>>

export interface OverrideDraft {
  /** '' stands for every riser, every floor. */
  readonly riser: string
  readonly floor: string
  readonly outlets: CountsDraft
}

export interface HeaterDraft {
  readonly kind: 'storage' | 'instant'
  readonly label: string
  readonly volumeL: string
  readonly setpointC: string
}

/** The quick description as it stands in its form: text as typed, '' where nothing is answered yet. */
export interface QuickDraft {
  readonly name: string
  readonly floors: string
  readonly firstFloor: string
  readonly plant: '' | 'bottom' | 'roof'
  readonly risers: string
  readonly outlets: CountsDraft
  readonly overrides: readonly OverrideDraft[]
  readonly heaters: readonly HeaterDraft[]
  readonly coldTank: '' | 'no' | 'yes'
  readonly coldTankL: string
  readonly recirculation: '' | QuickDescription['recirculation']
  readonly mixing: '' | QuickDescription['mixing']
  readonly disinfectant: '' | DisinfectantKind
  readonly residual: string
  readonly supplyC: string
  readonly pH: string
  readonly material: '' | NonNullable<NonNullable<QuickDescription['pipes']>['material']>
  readonly insulation: '' | NonNullable<NonNullable<QuickDescription['pipes']>['insulation']>
}

export const emptyQuick = (name: string): QuickDraft => ({
  name,
  floors: '',
  firstFloor: '1',
  plant: '',
  risers: '',
  outlets: {},
  overrides: [],
  heaters: [],
  coldTank: '',
  coldTankL: '',
  recirculation: '',
  mixing: '',
  disinfectant: '',
  residual: '',
  supplyC: '',
  pH: '',
  material: '',
  insulation: '',
})

/** The number typed; undefined for an empty field; the text itself where it is no number, for the schema to name. */
const numeral = (text: string): number | string | undefined => {
  const read = readTypedQuantity(text)
  return read.kind === 'number' ? read.value : read.kind === 'empty' ? undefined : text
}

/** A bare number counts risers; anything else names them, parted by commas. */
export function risersOf(text: string): number | string[] | undefined {
  if (text.trim() === '') return undefined
  if (/^\d+$/.test(text.trim())) return Number(text)
  return text
    .split(/[,;]/)
    .map((name) => name.trim())
    .filter(Boolean)
}

const answered = (facts: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined && value !== ''))

const countsOf = (counts: CountsDraft): Record<string, unknown> =>
  answered(Object.fromEntries(Object.entries(counts).map(([kind, typed]) => [kind, numeral(typed)])))

function candidateOf(draft: QuickDraft): Record<string, unknown> {
  const first = numeral(draft.firstFloor)
  const count = numeral(draft.floors)
  const pipes = answered({ material: draft.material, insulation: draft.insulation })
  return answered({
    name: draft.name.trim(),
    floors: first === 1 || first === undefined || count === undefined ? count : { count, first },
    plant: draft.plant === '' ? undefined : { position: draft.plant },
    risers: risersOf(draft.risers),
    outlets: countsOf(draft.outlets),
    overrides: draft.overrides.map(({ riser, floor, outlets }) => ({
      ...answered({ riser, floor: numeral(floor) }),
      outlets: countsOf(outlets),
    })),
    heaters: draft.heaters.map(({ kind, label, volumeL, setpointC }) =>
      answered({
        kind,
        label: label.trim(),
        volumeL: kind === 'storage' ? numeral(volumeL) : undefined,
        setpointC: numeral(setpointC),
      }),
    ),
    coldTank: draft.coldTank === 'yes' ? answered({ volumeL: numeral(draft.coldTankL) }) : undefined,
    recirculation: draft.recirculation,
    mixing: draft.mixing,
    supply: answered({
      disinfectant: draft.disinfectant,
      residualMgPerL: numeral(draft.residual),
      temperatureC: numeral(draft.supplyC),
      pH: numeral(draft.pH),
    }),
    pipes: Object.keys(pipes).length === 0 ? undefined : pipes,
  })
}

export type Read = { ok: true; value: QuickDescription } | { ok: false; issues: readonly Issue[] }

/** The description a finished draft stands for, or everything still missing or wrong. */
export function quickFrom(draft: QuickDraft): Read {
  return parseWith(quickDescriptionSchema, candidateOf(draft))
}

/** What can be drawn already: questions not answered yet are drawn as the simplest case. Undefined before there is a floor and a riser. */
export function quickSoFar(draft: QuickDraft): QuickDescription | undefined {
  const candidate = candidateOf(draft)
  const supply = { disinfectant: 'unknown', ...(candidate['supply'] as object) }
  const read = parseWith(quickDescriptionSchema, {
    recirculation: 'none',
    mixing: 'none',
    ...candidate,
    name: draft.name.trim() === '' ? 'Building' : draft.name.trim(),
    supply,
  })
  return read.ok ? read.value : undefined
}

/** The draft that shows a description. */
export function quickDraftOf(quick: QuickDescription): QuickDraft {
  const words = (value: number | undefined): string => (value === undefined ? '' : String(value))
  const counts = (given: QuickDescription['outlets']): CountsDraft =>
    Object.fromEntries(Object.entries(given).map(([kind, count]) => [kind, words(count)]))
  const floors = typeof quick.floors === 'number' ? { count: quick.floors, first: 1 } : quick.floors
  return {
    name: quick.name,
    floors: words(floors.count),
    firstFloor: words(floors.first ?? 1),
    plant: quick.plant?.position ?? '',
    risers: typeof quick.risers === 'number' ? words(quick.risers) : quick.risers.join(', '),
    outlets: counts(quick.outlets),
    overrides: (quick.overrides ?? []).map(({ riser = '', floor, outlets }) => ({
      riser,
      floor: words(floor),
      outlets: counts(outlets),
    })),
    heaters: (quick.heaters ?? []).map((heater) => ({
      kind: heater.kind,
      label: heater.label ?? '',
      volumeL: heater.kind === 'storage' ? words(heater.volumeL) : '',
      setpointC: words(heater.setpointC),
    })),
    coldTank: quick.coldTank === undefined ? 'no' : 'yes',
    coldTankL: words(quick.coldTank?.volumeL),
    recirculation: quick.recirculation,
    mixing: quick.mixing,
    disinfectant: quick.supply.disinfectant,
    residual: words(quick.supply.residualMgPerL),
    supplyC: words(quick.supply.temperatureC),
    pH: words(quick.supply.pH),
    material: quick.pipes?.material ?? '',
    insulation: quick.pipes?.insulation ?? '',
  }
}
