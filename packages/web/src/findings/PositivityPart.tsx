import { CONFIDENCE_WORDS } from '@rillmark/casebook/findings/confidence.ts'
import type { Focus } from '@rillmark/casebook/findings/focus-rows.ts'
import {
  GROUPINGS,
  type Grouping,
  groupWords,
  positivity,
  type PositivityGroup,
  positivityWords,
} from '@rillmark/casebook/findings/positivity.ts'
import type { SampleRow } from '@rillmark/casebook/findings/sample-rows.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { CalculatorLink } from '../calculators/CalculatorLink.tsx'
import { Bars } from '../kit/Bars.tsx'
import { Section } from '../kit/Section.tsx'
import { Select } from '../kit/Select.tsx'
import { usePreferences } from '../store/preferences.tsx'

interface PartProps {
  readonly rows: readonly SampleRow[]
  readonly focus: Focus | undefined
  readonly onFocus: (focus: Focus | undefined) => void
}

const MEDIA = { swab: 'First flush and swab', water: 'Water' } as const

/** Share of positive samples by what the user asks, each with its counts and interval; swabs and water apart. */
export function PositivityPart({ rows, focus, onFocus }: PartProps): ReactNode {
  const offered = useMemo(
    () => (Object.keys(GROUPINGS) as Grouping[]).filter((by) => positivity(rows, by).some(({ total }) => total > 0)),
    [rows],
  )
  const [picked, setPicked] = useState<Grouping>()
  const by = picked !== undefined && offered.includes(picked) ? picked : (offered[0] ?? 'riser')
  const groups = useMemo(() => positivity(rows, by), [rows, by])
  const choice = (
    <Select
      label="By"
      labelHidden
      value={by}
      onChange={setPicked}
      choices={offered.map((id) => ({ id, label: `by ${GROUPINGS[id]}` }))}
      width="narrow"
    />
  )
  if (offered.length === 0) return null
  return (
    <Section title="Positive of readable samples" aside={choice}>
      {(['swab', 'water'] as const).map((medium) => (
        <MediumBars
          key={medium}
          medium={medium}
          groups={groups.filter((group) => group.medium === medium)}
          focus={focus}
          onFocus={onFocus}
        />
      ))}
      <p className="faint">
        The fine line is Wilson’s {CONFIDENCE_WORDS} interval, as if points had been drawn by chance; suspect points
        were chosen on purpose. <CalculatorLink id="proportion">How the interval is worked out</CalculatorLink>
      </p>
    </Section>
  )
}

function MediumBars({
  medium,
  groups,
  focus,
  onFocus,
}: Omit<PartProps, 'rows'> & {
  readonly medium: keyof typeof MEDIA
  readonly groups: readonly PositivityGroup[]
}): ReactNode {
  const readable = groups.filter(({ total }) => total > 0)
  if (readable.length === 0) return null
  return (
    <div className="medium-bars">
      <h3>{MEDIA[medium]}</h3>
      <Bars
        label={`${MEDIA[medium]}, positive of readable`}
        lines={readable.map((group) => ({
          id: group.key,
          label: <GroupButton group={group} medium={medium} focus={focus} onFocus={onFocus} />,
          fraction: group.estimate ?? 0,
          interval: group.interval,
          text: positivityWords(group),
        }))}
      />
      <Remarks groups={readable} />
    </div>
  )
}

function GroupButton({
  group,
  medium,
  focus,
  onFocus,
}: {
  readonly group: PositivityGroup
  readonly medium: keyof typeof MEDIA
  readonly focus: Focus | undefined
  readonly onFocus: (focus: Focus | undefined) => void
}): ReactNode {
  const { units } = usePreferences()
  const words = `${MEDIA[medium]}, ${groupWords(group, units)}`
  const on = focus?.words === words
  return (
    <button
      type="button"
      className="button button-text"
      aria-pressed={on}
      onClick={() => onFocus(on ? undefined : { kind: 'samples', words, labels: group.labels })}
    >
      {groupWords(group, units)}
    </button>
  )
}

function Remarks({ groups }: { readonly groups: readonly PositivityGroup[] }): ReactNode {
  const sum = (field: 'waiting' | 'notInterpretable' | 'halfLimit' | 'afterTreatment'): number =>
    groups.reduce((all, group) => all + group[field], 0)
  const remarks = [
    [sum('waiting'), 'still out'],
    [sum('notInterpretable'), 'not interpretable'],
    [sum('halfLimit'), 'with a value of half a limit, counted as negative'],
    [sum('afterTreatment'), 'taken after a treatment or filter'],
  ] as const
  const words = remarks.filter(([number]) => number > 0).map(([number, what]) => `${number} ${what}`)
  return words.length === 0 ? null : <p className="faint">{words.join(' · ')}</p>
}
