import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { DataTable } from '../kit/DataTable.tsx'
import { Tag } from '../kit/Tag.tsx'
import { shortMoment } from '../offline/short-moment.ts'
import { useNow } from '../store/use-now.ts'
import type { KnownDevice } from '../sync/device-access.ts'
import { ROLE_WORDS, seenWords } from './device-words.ts'

/** Who is in, as what, and when last heard of; revoked ones stay listed with the reason. */
export function DeviceTable(props: {
  readonly devices: readonly KnownDevice[]
  readonly own: string
  readonly onRevoke: ((device: KnownDevice) => void) | undefined
}): ReactNode {
  const { devices, own, onRevoke } = props
  const nowMs = useNow()
  const inFirst = devices.toSorted((a, b) => Number(a.revoked !== undefined) - Number(b.revoked !== undefined))
  const count = devices.filter(({ revoked }) => revoked === undefined).length
  return (
    <DataTable
      caption={count === 1 ? '1 device is in' : `${count} devices are in`}
      rows={inFirst}
      rowId={({ id }) => id}
      columns={[
        {
          id: 'name',
          head: 'Device',
          cell: ({ id, name }) => (id === own ? `${name} (this one)` : name),
          sort: ({ name }) => name,
        },
        { id: 'role', head: 'Role', cell: ({ role }) => ROLE_WORDS[role], sort: ({ role }) => role },
        {
          id: 'seen',
          head: 'Last heard of',
          cell: (device) => seenWords(device, { nowMs, moment: shortMoment }),
          sort: ({ seen }) => seen,
        },
        {
          id: 'state',
          head: 'State',
          cell: ({ revoked }) =>
            revoked === undefined ? (
              <Tag shape="check">in</Tag>
            ) : (
              <Tag shape="dash" kind="faint">
                revoked {shortMoment(revoked.at)}: {revoked.reason}
              </Tag>
            ),
        },
        ...(onRevoke === undefined
          ? []
          : [
              {
                id: 'act',
                head: 'Act',
                cell: (device: KnownDevice) =>
                  device.revoked === undefined && (
                    <Button kind="text" onPress={() => onRevoke(device)} name={`Revoke ${device.name}`}>
                      Revoke
                    </Button>
                  ),
              },
            ]),
      ]}
    />
  )
}
