import { useCallback, useEffect, useState } from 'react'
import { useDevice } from '../store/device.tsx'
import { DraftCopies } from './draft-copies.ts'
import type { Draft, DraftHandle } from './drafts.ts'

/**
 * The draft of one place on this screen, written twice with every keystroke: where a reload finds it at once, and into the device's
 * database, which a killed browser or a dead battery leaves whole. The newer of the two is taken up. The component must be keyed by `name`.
 */
export function useDraft(name: string): DraftHandle {
  const { draft: readLasting, keepDraft } = useDevice()
  const [copies] = useState(() => {
    const lasting = `field ${name}`
    return new DraftCopies({
      name,
      place: localStorage,
      lasting: { read: () => readLasting(lasting), keep: (text) => keepDraft(lasting, text) },
      now: Date.now,
    })
  })
  const [draft, setDraft] = useState(copies.present)
  const [kept, setKept] = useState(true)
  const [read, setRead] = useState(false)
  const follow = useCallback(
    (done: Promise<boolean>) => {
      setDraft(copies.present)
      void done.then(setKept)
    },
    [copies],
  )
  useEffect(() => {
    void copies.read().then((is) => {
      setDraft(copies.present)
      setKept(is)
      setRead(true)
    })
  }, [copies])
  const set = useCallback((fields: Draft) => follow(copies.set(fields)), [copies, follow])
  const clear = useCallback(() => follow(copies.clear()), [copies, follow])
  return { get: (field) => draft.fields[field] ?? '', set, clear, kept, read }
}
