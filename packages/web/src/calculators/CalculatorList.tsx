import { counted } from '@rillmark/casebook/units/counted.ts'
import { calculations } from '@rillmark/science/catalogue/catalogue.ts'
import { type ReactNode, useState } from 'react'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { TextField } from '../kit/TextField.tsx'
import { CalculatorLink } from './CalculatorLink.tsx'
import { bySubject } from './subjects.ts'

/** Every calculation by subject, narrowed by words. */
export function CalculatorList(): ReactNode {
  const [asked, setAsked] = useState('')
  const groups = bySubject(calculations, asked)
  const found = groups.reduce((sum, group) => sum + group.calculations.length, 0)
  return (
    <Page>
      <PageHead
        title="Calculators"
        lead="Each shows its formula with your figures in it, how unsure the result is, and where the method comes from."
      />
      <TextField
        label="Narrow the list"
        hint={<span role="status">{counted(found, 'calculator')}</span>}
        value={asked}
        onChange={setAsked}
        inputMode="search"
        placeholder="for instance chlorine, pipe, plates"
      />
      {groups.map((group) => (
        <Section key={group.subject} title={group.subject}>
          <ul className="calc-list">
            {group.calculations.map(({ id, title, purpose }) => (
              <li key={id}>
                <CalculatorLink id={id}>{title}</CalculatorLink>
                <p className="quiet">{purpose}</p>
              </li>
            ))}
          </ul>
        </Section>
      ))}
      {found === 0 && <p className="quiet">No calculator speaks of “{asked.trim()}”. Take a word away.</p>}
    </Page>
  )
}
