import { type DeviceDatabase, openDatabase } from '../ledger/database.ts'
import { letGo } from '../offline/let-go.ts'
import { onceUnlessItFails } from '../store/once.ts'
import { onAnother } from './identity.ts'

/**
 * What this browser keeps, for whoever deals with the server about this device. `database` changes when this tab makes it another device: the
 * connection that everything loaded so far writes by is closed then, so that nothing more is written under the old name.
 */
export interface DeviceDoor {
  readonly database: DeviceDatabase
  /** a connection of its own, to become another device by */
  readonly apart: () => Promise<DeviceDatabase>
  /** the browser is another device from now on: this tab goes on by that connection alone */
  readonly goOnApart: (database: DeviceDatabase) => void
}

export function deviceDoor(loaded: DeviceDatabase): DeviceDoor {
  let database = loaded
  const goOnApart = (by: DeviceDatabase): void => {
    database = by
    loaded.close()
    letGo.set('anew here')
  }
  onAnother(() => {
    loaded.close()
    letGo.set('another device')
  })
  return {
    get database() {
      return database
    },
    apart: onceUnlessItFails(() => openDatabase(loaded.name)),
    goOnApart,
  }
}
