import { given } from '@rillmark/casebook/entry/given.ts'
import type { Pipe, WaterSystem } from '@rillmark/casebook/building/water-system.ts'

/** The last pipe before an outlet, as a calculation asks for it, and the flow the outlet is described with. */
export interface Branch {
  readonly segment: {
    readonly lengthM: number
    readonly boreMm?: number
    readonly standard?: string
    readonly size?: string
  }
  readonly flowLPerMin?: number
}

const WARM_FIRST: readonly Pipe['circuit'][] = ['tempered', 'hot', 'cold']

/** The pipe that brings the warmest water to an outlet; undefined where none with a known bore is described. */
export function branchOf({ components, pipes }: WaterSystem, outlet: string): Branch | undefined {
  const at = pipes.filter(({ from, to }) => from === outlet || to === outlet)
  const [pipe] = WARM_FIRST.flatMap((circuit) => at.filter((each) => each.circuit === circuit))
  if (pipe === undefined) return undefined
  const { boreMm, standard, size, lengthM } = pipe
  if (boreMm === undefined && (standard === undefined || size === undefined)) return undefined
  const bore = boreMm === undefined ? { standard, size } : { boreMm }
  const use = components.find(({ id }) => id === outlet)?.use
  const flowLPerMin = use === undefined || !('flowLPerMin' in use) ? undefined : use.flowLPerMin
  return { segment: { lengthM, ...given(bore) }, ...given({ flowLPerMin }) }
}
