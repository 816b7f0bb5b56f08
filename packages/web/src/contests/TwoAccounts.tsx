import { type Account, openAccounts, type OpenAccounts } from '@rillmark/casebook/contests/open-accounts.ts'
import type { ContestDecision } from '@rillmark/casebook/contests/kinds.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { useDerived } from '../store/investigation.tsx'
import { SettleDialog } from './SettleDialog.tsx'
import './contests.css'

/** Two accounts of one thing, side by side, until a person says which stands. Nothing where all agree. */
export function TwoAccounts(): ReactNode {
  const open = useDerived(openAccounts)
  if (open.length === 0) return null
  return (
    <section className="accounts" aria-label="Two accounts of one thing">
      <h2>{open.length === 1 ? 'Two accounts of one thing' : `${open.length} things with two accounts`}</h2>
      <p className="quiet">Written on two devices that did not know of each other. Ask both, then say which stands.</p>
      <ul>
        {open.map((each) => (
          <Pair key={each.second.id} accounts={each} />
        ))}
      </ul>
    </section>
  )
}

function Pair({ accounts }: { readonly accounts: OpenAccounts }): ReactNode {
  const { first, second, standing, issues } = accounts
  const [decision, setDecision] = useState<ContestDecision>()
  const choices: readonly ContestDecision[] =
    standing === 'differ' ? ['first stands', 'second stands', 'both stand'] : ['first stands', 'second stands']
  return (
    <li className="accounts-pair">
      <div className="accounts-sides">
        <Side name="First" accounts={first} counts />
        <Side name="Second" accounts={[second]} counts={standing === 'differ'} />
      </div>
      {issues.length > 0 && (
        <p className="faint">
          Against the second:{' '}
          {issues.map(({ expected, received }) => `expected ${expected}, received ${received}`).join('; ')}
        </p>
      )}
      <ButtonRow>
        {choices.map((choice) => (
          <Button key={choice} onPress={() => setDecision(choice)}>
            {WORDS[choice]}
          </Button>
        ))}
      </ButtonRow>
      {decision !== undefined && (
        <SettleDialog
          accounts={accounts}
          decision={decision}
          title={WORDS[decision]}
          onClose={() => setDecision(undefined)}
        />
      )}
    </li>
  )
}

const WORDS: Readonly<Record<ContestDecision, string>> = {
  'first stands': 'The first stands',
  'second stands': 'The second stands',
  'both stand': 'Both stand',
}

function Side(props: {
  readonly name: string
  readonly accounts: readonly Account[]
  readonly counts: boolean
}): ReactNode {
  const { name, accounts, counts } = props
  return (
    <div className="accounts-side">
      <p className="accounts-name">
        {name} <span className="quiet">{counts ? 'counts now' : 'counts for nothing yet'}</span>
      </p>
      {accounts.length === 0 && <p>The record as it stood.</p>}
      {accounts.map(({ id, title, words, author, device, ...when }) => (
        <div key={id}>
          <p>
            <b>{title}</b> {words}
          </p>
          <p className="faint">
            {author}, {device}, {wallClock(when)}
          </p>
        </div>
      ))}
    </div>
  )
}
