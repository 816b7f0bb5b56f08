import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { type Change, compareBodies } from '@rillmark/casebook/record/body-facts.ts'
import type { ListedEntry } from '@rillmark/casebook/record/entry-list.ts'
import { type ReactNode, useMemo } from 'react'
import type { NamedField } from '../form/field-spec.ts'
import { labelAt } from '../form/label-at.ts'
import { useInvestigation } from '../store/investigation.tsx'

interface VersionsPartProps {
  readonly entry: Entry
  readonly listed: readonly ListedEntry[]
  readonly fields: readonly NamedField[]
  readonly onSelect: (id: string) => void
}

/** All versions of an entry side by side, with who, when and why, and each difference named. */
export function VersionsPart({ entry, listed, fields, onSelect }: VersionsPartProps): ReactNode {
  const { state, version } = useInvestigation()
  const { record } = state
  const versions = record.versions.get(record.firstOf.get(entry.id) ?? '')
  const numbers = useMemo(
    () => new Map(listed.map(({ entry: each, number }) => [each.id, number])),
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the list is the record's at this version
    [version],
  )
  if (versions === undefined || (versions.amendments.length === 0 && versions.withdrawn === undefined)) return null
  const all = [versions.first, ...versions.amendments]
  const facts = compareBodies(all.map(({ body }) => body))
  const differing = facts.filter(({ versions: values }) =>
    values.some(({ change }) => change !== 'first' && change !== 'same'),
  )
  return (
    <>
      <h3>Versions</h3>
      <ol className="record-versions">
        {[...all, ...(versions.withdrawn === undefined ? [] : [versions.withdrawn])].map((each) => (
          <li key={each.id}>
            <button
              type="button"
              className="button button-text"
              aria-pressed={each.id === entry.id}
              onClick={() => onSelect(each.id)}
            >
              No. {numbers.get(each.id)}
            </button>{' '}
            {each === versions.first
              ? 'first written'
              : each.kind === 'contest.settled'
                ? 'set aside'
                : each.kind === 'entry.withdrawn'
                  ? 'withdrawn'
                  : 'amended'}{' '}
            by {each.author}, {wallClock(each)}
            {each.corrects !== undefined && <span>: {each.corrects.reason}</span>}
          </li>
        ))}
      </ol>
      {differing.length > 0 && (
        <Comparison
          heads={all.map(({ id }) => `No. ${numbers.get(id) ?? ''}`)}
          rows={differing.map(({ path, versions: values }) => ({ label: labelAt(fields, path).label, values }))}
        />
      )}
      {all.length > 1 && (
        <p className="faint">
          {differing.length === 0
            ? 'The versions say the same.'
            : `The other ${facts.length - differing.length} facts are the same in every version.`}
        </p>
      )}
    </>
  )
}

interface ComparedRow {
  readonly label: string
  readonly values: readonly { readonly value?: string | undefined; readonly change: Change }[]
}

function Comparison({
  heads,
  rows,
}: {
  readonly heads: readonly string[]
  readonly rows: readonly ComparedRow[]
}): ReactNode {
  return (
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a region that scrolls must be reachable by keyboard
    <div className="table-scroll" tabIndex={0} role="region" aria-label="What differs between the versions">
      <table className="record-compare">
        <caption className="visually-hidden">What differs between the versions</caption>
        <thead>
          <tr>
            <th scope="col">Fact</th>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ label, values }) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              {values.map(({ value, change }, index) => (
                <td key={heads[index]} data-change={change}>
                  {change !== 'first' && <span className="record-change">{change}</span>}
                  <span>{value ?? 'not given'}</span>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
