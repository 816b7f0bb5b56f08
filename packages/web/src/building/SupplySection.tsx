import { nowKnown } from '@rillmark/casebook/building/changed-system.ts'
import type { KnownBy, Supply, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { FactsForm } from './FactsForm.tsx'
import { FactsView } from './FactsView.tsx'
import { SUPPLY_FIELDS, supplyFrom } from './facts.ts'
import { supplyLines } from './fact-lines.ts'
import { useEdit } from './use-edit.ts'

/** What the supplier sends: it decides the residual test and the neutralizer. */
export function SupplySection({ system }: { readonly system: WaterSystem }): ReactNode {
  const edit = useEdit()
  const { units } = usePreferences()
  const [open, setOpen] = useState(false)
  const { supply } = system
  const put = (next: Supply, how: { said: string; why?: string }): Promise<readonly Issue[]> =>
    edit({ changes: [{ change: 'set-supply', supply: next }], ...how })
  const mark = (fact: string, known: KnownBy): void =>
    void put(nowKnown(supply, { facts: [fact], known }), { said: `Supply: ${SUPPLY_WORDS[fact] ?? fact} ${known}.` })
  return (
    <Section
      title="Supply"
      aside={
        open ? undefined : (
          <Button kind="text" name="Change the supply" onPress={() => setOpen(true)}>
            Change
          </Button>
        )
      }
    >
      {open ? (
        <FactsForm
          system={system}
          thing={supply}
          fields={() => SUPPLY_FIELDS}
          read={supplyFrom}
          onRecord={(next, why) => put(next, { said: 'Supply changed.', why })}
          onClose={() => setOpen(false)}
        />
      ) : (
        <FactsView facts={supplyLines(supply, units)} onKnown={mark} />
      )}
    </Section>
  )
}

const SUPPLY_WORDS: Readonly<Record<string, string>> = { temperatureC: 'temperature', notes: 'notes' }
