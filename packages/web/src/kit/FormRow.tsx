import type { ReactNode } from 'react'

/** Fields side by side at the desk, one below the other on a phone. */
export function FormRow({ children }: { readonly children: ReactNode }): ReactNode {
  return <div className="form-row">{children}</div>
}
