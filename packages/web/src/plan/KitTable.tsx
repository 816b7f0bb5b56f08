import { kitList } from '@rillmark/casebook/plan/kit-list.ts'
import type { Plan } from '@rillmark/casebook/plan/plan-file.ts'
import { proceduresIn } from '@rillmark/casebook/plan/procedures-in-use.ts'
import { type ReactNode, useMemo } from 'react'
import { useInvestigation } from '../store/investigation.tsx'

/** What to pack, with quantities that follow from the plan. */
export function KitTable({ plan }: { readonly plan: Plan }): ReactNode {
  const { state } = useInvestigation()
  const disinfectant = state.building.system?.supply.disinfectant.kind
  const sections = useMemo(
    () => kitList({ plan, procedures: proceduresIn(state), disinfectant }),
    [plan, state, disinfectant],
  )
  if (sections.length === 0) return <p className="quiet">An empty plan needs nothing.</p>
  return (
    <div className="plan-kit">
      {sections.map(({ title, rows }) => (
        <table key={title}>
          <caption>{title}</caption>
          <tbody>
            {rows.map((row) => (
              <tr key={row.item}>
                <td className="num">{row.quantity}</td>
                <td className="quiet">{row.unit}</td>
                <th scope="row">
                  {row.item}
                  <span className="faint plan-detail">{row.why}</span>
                </th>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </div>
  )
}
