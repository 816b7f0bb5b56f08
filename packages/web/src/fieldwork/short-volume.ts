/** A bottle filled to less than this share of what was planned is short. Our own choice, no source: procedures leave a tenth for headspace. */
const ENOUGH = 0.9

/** What to say of a volume well below the planned one, both in mL; undefined where it is enough or nothing was planned. */
export function shortVolumeWords(volumeMl: number, plannedMl: number | undefined): string | undefined {
  if (plannedMl === undefined || volumeMl >= plannedMl * ENOUGH) return undefined
  return `${volumeMl} mL where ${plannedMl} mL are planned`
}
