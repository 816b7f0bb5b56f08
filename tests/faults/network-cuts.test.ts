import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { type CutProxy, cutProxy, plannedCuts } from './cut-proxy.ts'
import { agree } from './derived.ts'
import { IngestDevice } from './ingest-device.ts'
import { broken, brokenRecord, together } from './kept-promises.ts'
import { Requests } from './requests.ts'
import { chance, SEED, tellSeed, times } from './seed.ts'
import { startServer } from './server-process.ts'

const CUTS = times(400, 'RILLMARK_CUTS')
const DEVICES = 3
const MOST_BYTES = 150_000
const investigation = 'faults-cuts'

const dataFolder = mkdtempSync(join(tmpdir(), 'rillmark-cuts-'))
afterAll(() => rmSync(dataFolder, { recursive: true, force: true }))

test(`[SYN2] [SRV3] [SRV5] [PIC1] [PIC2] connections cut ${CUTS} times inside requests and answers lose nothing and double nothing`, async () => {
  tellSeed('network cuts')
  const server = await startServer({ dataFolder })
  const proxies = await Promise.all(
    Array.from({ length: DEVICES }, (_, n) =>
      cutProxy({
        target: () => server.url,
        plan: plannedCuts(chance(40 + n), { most: MOST_BYTES }),
      }),
    ),
  )
  const devices = proxies.map((proxy, n): IngestDevice => {
    const shared = () => devices[(n + 1) % DEVICES]?.photo
    return new IngestDevice({ name: `phone-${n}`, url: () => proxy.url, chance: chance(50 + n), shared })
  })
  const mode = (to: CutProxy['mode']) => {
    for (const proxy of proxies) proxy.mode = to
  }
  try {
    mode('cutting')
    for (const device of devices) device.begin(investigation)
    const cuts = () => proxies.reduce((sum, each) => sum + each.cuts(), 0)
    const failed = () => devices.flatMap(({ failure }) => (failure === undefined ? [] : [String(failure)]))
    while (cuts() < CUTS && failed().length === 0) await new Promise((resolve) => setTimeout(resolve, 20))
    mode('through')
    expect(failed(), `seed ${SEED}`).toEqual([])
    for (const device of [...devices, ...devices]) await device.finish()
    const requests = new Requests(() => server.url)
    const acknowledged = together(devices.map((each) => each.acknowledged))
    const faults = [
      ...(await broken(acknowledged, requests)),
      ...(await brokenRecord(investigation, { acknowledged, requests })),
    ]
    expect(faults, `seed ${SEED}`).toEqual([])
    const { head } = await requests.pull(investigation, 0)
    expect(head.sequence).toBe(devices.reduce((sum, { written }) => sum + written, 0))
    expect(
      await agree(
        devices.map(({ replica }) => replica),
        investigation,
      ),
    ).toBe(true)
    expect(server.troubles()).toBe('')
    process.stdout.write(`network cuts: ${cuts()}; ${head.sequence} entries, ${acknowledged.photos.length} photos\n`)
  } finally {
    for (const proxy of proxies) await proxy.close()
    await server.kill()
  }
})
