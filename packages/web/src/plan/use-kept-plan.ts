import { useEffect, useState } from 'react'
import { useDevice } from '../store/device.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { type PlanWishes, readWishes, wishesText } from './kept-plan.ts'

export interface KeptPlan {
  /** undefined while it is being read */
  readonly wishes: PlanWishes | undefined
  readonly set: (wishes: PlanWishes) => void
  readonly drop: () => void
  /** false where this browser keeps nothing */
  readonly kept: boolean
}

/** The draft of a round, kept on this device with every change until it is adopted or dropped. */
export function useKeptPlan(round: string, first: PlanWishes): KeptPlan {
  const { id, state } = useInvestigation()
  const { draft, keepDraft } = useDevice()
  const name = `plan ${id} ${round}`
  const [wishes, setWishes] = useState<PlanWishes>()
  const [kept, setKept] = useState(true)
  useEffect(() => {
    let wanted = true
    const take = (text: string | undefined): void => {
      const components = new Set(state.building.system?.components.map((one) => one.id))
      if (wanted) setWishes(readWishes(text, { components, first }))
    }
    draft(name).then(take, () => {
      take(undefined)
      setKept(false)
    })
    return () => {
      wanted = false
    }
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- read once for a round; what changes later is written, not read
  }, [name])
  const set = (next: PlanWishes): void => {
    setWishes(next)
    keepDraft(name, wishesText(next, first)).then(
      () => setKept(true),
      () => setKept(false),
    )
  }
  return { wishes, set, drop: () => set(first), kept }
}
