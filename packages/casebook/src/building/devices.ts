import list from '@rillmark/reference/devices/devices.json' with { type: 'json' }
import * as z from 'zod'
import { COMPONENT_KINDS } from './water-system.ts'

const words = z.string().min(1).max(300)

const deviceSchema = z.strictObject({
  id: z.string().regex(/^[a-z][a-z-]*$/),
  name: words,
  /** The kind of component to add when it is present. */
  componentKind: z.enum(COMPONENT_KINDS),
  where: words,
  why: words,
  source: words,
  known: z.enum(['seen', 'computed', 'memory']),
})

/** A list of devices to look for; a jurisdiction may bring its own. */
const deviceListSchema = z.strictObject({
  format: z.literal('rillmark/device-list@1'),
  version: z.string(),
  purpose: words,
  devices: z.array(deviceSchema).min(1),
})

export type Device = z.infer<typeof deviceSchema>

/** Everything that wets air or may: what the sweep of a building asks for, one by one. */
export const DEVICES_TO_SWEEP: readonly Device[] = deviceListSchema.parse(list).devices

export type SweepAnswer = 'present' | 'absent' | 'not looked at'

/** Every device of the list with its answer; what nobody answered is not looked at. */
export function sweepStanding(
  answers: ReadonlyMap<string, SweepAnswer>,
  devices: readonly Device[] = DEVICES_TO_SWEEP,
): { device: Device; answer: SweepAnswer }[] {
  return devices.map((device) => ({ device, answer: answers.get(device.id) ?? 'not looked at' }))
}

/** Before the name of a device that is on no list: `other: misting fan`. */
export const OTHER_DEVICE = 'other: '

/** True for the devices of the list and for those a person named themselves. */
export const isSweepable = (device: string): boolean =>
  DEVICES_TO_SWEEP.some(({ id }) => id === device) ||
  (device.startsWith(OTHER_DEVICE) && device.slice(OTHER_DEVICE.length).trim() !== '')

/** The name of a device of the list, or what a person called it. */
export function deviceName(device: string): string {
  if (device.startsWith(OTHER_DEVICE)) return device.slice(OTHER_DEVICE.length)
  return DEVICES_TO_SWEEP.find(({ id }) => id === device)?.name ?? device
}
