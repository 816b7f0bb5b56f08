import { InitHydOption, type Project } from 'epanet-js'

/**
 * Carries the water of a project whose flows are solved, and shows it after each step of its quality.
 *
 * @param see given how many steps were taken and the last second of that step
 */
export function qualitySteps(
  project: Project,
  { stepS, see }: { stepS: number; see: (count: number, second: number) => void },
): void {
  project.openQ()
  project.initQ(InitHydOption.NoSave)
  for (let count = 1; ; count += 1) {
    project.runQ()
    const left = project.stepQ()
    see(count, count * stepS - 1)
    if (left <= 0) break
  }
  project.closeQ()
}
