/** Waits for every lane, also where one failed, so that no process of another is left behind; then gives the first failure. */
export async function allLanes<T>(lanes: readonly Promise<T>[]): Promise<T[]> {
  await Promise.allSettled(lanes)
  return Promise.all(lanes)
}
