import { checkSystem } from '@rillmark/casebook/building/check-system.ts'
import { type WaterSystem, waterSystemSchema } from '@rillmark/casebook/building/water-system.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { CommandIo } from './command.ts'
import { readJson } from './files.ts'

/** A water system without errors, which can be simulated, or all that is wrong with it. */
export async function readSoundSystem(
  file: string | undefined,
  io: CommandIo,
): Promise<{ system: WaterSystem } | { issues: readonly Issue[] }> {
  const read = await readJson(file, io)
  if ('issues' in read) return read
  const problems = checkSystem(read.value).filter(({ severity }) => severity === 'error')
  return problems.length > 0 ? { issues: problems } : { system: waterSystemSchema.parse(read.value) }
}
