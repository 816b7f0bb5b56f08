import { DEVICES_TO_SWEEP, OTHER_DEVICE } from '@rillmark/casebook/building/devices.ts'

/** The name of a device of the list, or what a person called it. */
export function deviceName(device: string): string {
  if (device.startsWith(OTHER_DEVICE)) return device.slice(OTHER_DEVICE.length)
  return DEVICES_TO_SWEEP.find(({ id }) => id === device)?.name ?? device
}
