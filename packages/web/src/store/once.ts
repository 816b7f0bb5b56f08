/** Does the work when it is first asked for, and gives everybody that; where it fails, the next who asks has it done again. */
export function onceUnlessItFails<T>(work: () => Promise<T>): () => Promise<T> {
  let done: Promise<T> | undefined
  return () => {
    if (done === undefined) {
      const begun = work()
      done = begun
      begun.catch(() => {
        if (done === begun) done = undefined
      })
    }
    return done
  }
}
