import type { Account } from '@rillmark/casebook/contests/open-accounts.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import type { ReactNode } from 'react'

/** One account: what it says, and who wrote it where and when. */
export function AccountWords({ account }: { readonly account: Account }): ReactNode {
  const { title, words, author, device, ...when } = account
  return (
    <div>
      <p>
        <b>{title}</b> {words}
      </p>
      <p className="faint">
        {author}, {device}, {wallClock(when)}
      </p>
    </div>
  )
}
