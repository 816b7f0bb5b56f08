import { type Account, openAccounts, type OpenAccounts } from '@rillmark/casebook/contests/open-accounts.ts'
import type { ContestDecision } from '@rillmark/casebook/contests/kinds.ts'
import { toldTwice } from '@rillmark/casebook/contests/told-twice.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { useDerived } from '../store/investigation.tsx'
import { AccountWords } from './AccountWords.tsx'
import { SettleDialog } from './SettleDialog.tsx'
import './contests.css'

/** Two accounts of one thing, side by side, until a person says which stands; those of one visit also as a whole. Nothing where all agree. */
export function TwoAccounts(): ReactNode {
  const open = useDerived(openAccounts)
  if (open.length === 0) return null
  return (
    <section className="accounts" aria-label="Two accounts of one thing">
      <h2>{open.length === 1 ? 'Two accounts of one thing' : `${open.length} things with two accounts`}</h2>
      <p className="quiet">Written on two devices that did not know of each other. Ask both, then say which stands.</p>
      <ul>
        {toldTwice(open).map(({ key, pairs }) => (
          <li key={key} className="accounts-visit">
            {pairs.length > 1 && <WholeVisit pairs={pairs} />}
            {pairs.map((each) => (
              <Pair key={each.second.id} accounts={each} />
            ))}
          </li>
        ))}
      </ul>
    </section>
  )
}

/** All that two devices told differently of one stop. */
function WholeVisit({ pairs }: { readonly pairs: readonly OpenAccounts[] }): ReactNode {
  const [decision, setDecision] = useState<ContestDecision>()
  const [pair] = pairs
  const [first] = pair?.first ?? []
  if (pair === undefined || first === undefined) return null
  const place = [pair.place ?? pair.at?.stop, pair.at?.round].filter(Boolean).join(', ')
  const words: Partial<Record<ContestDecision, string>> = {
    'first stands': `All as ${told(first)} told it`,
    'second stands': `All as ${told(pair.second)} told it`,
  }
  return (
    <div className="stack">
      <h3>
        {place}: {pairs.length} things told twice
      </h3>
      <ButtonRow>
        {(['first stands', 'second stands'] as const).map((choice) => (
          <Button key={choice} onPress={() => setDecision(choice)}>
            {words[choice]}
          </Button>
        ))}
      </ButtonRow>
      <p className="faint">Or one by one:</p>
      {decision !== undefined && (
        <SettleDialog
          pairs={pairs}
          decision={decision}
          title={words[decision] ?? ''}
          onClose={() => setDecision(undefined)}
        />
      )}
    </div>
  )
}

const told = ({ author, device }: Account): string => `${author} (${device})`

function Pair({ accounts }: { readonly accounts: OpenAccounts }): ReactNode {
  const { first, second, standing, issues } = accounts
  const [decision, setDecision] = useState<ContestDecision>()
  const choices: readonly ContestDecision[] =
    standing === 'differ' ? ['first stands', 'second stands', 'both stand'] : ['first stands', 'second stands']
  return (
    <div className="accounts-pair">
      <div className="accounts-sides">
        <Side name="First" accounts={first} counts />
        <Side name="Second" accounts={[second]} counts={standing === 'differ'} />
      </div>
      {issues.length > 0 && (
        <p className="faint">
          Against the second:{' '}
          {issues.map(({ expected, received }) => `needed: ${expected}, found: ${received}`).join('; ')}
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
          pairs={[accounts]}
          decision={decision}
          title={WORDS[decision]}
          onClose={() => setDecision(undefined)}
        />
      )}
    </div>
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
      {accounts.map((account) => (
        <AccountWords key={account.id} account={account} />
      ))}
    </div>
  )
}
