/** The slow, obvious account of custody: where every bottle is, told act by act, with nothing clever in it. */
export interface ModelBox {
  readonly inside: string[]
  sealed: boolean
  received: boolean
  /** undefined while the one who opened it has it */
  holder: string | undefined
  waitsFor: string | undefined
}

export class CustodyModel {
  /** `party`: for whom, where it is a part of another */
  readonly bottles = new Map<string, { volumeMl: number; party?: string }>()
  readonly boxes = new Map<string, ModelBox>()
  readonly seals = new Set<string>()

  collect(label: string, volumeMl: number): void {
    this.bottles.set(label, { volumeMl })
  }

  where(label: string): string | undefined {
    const places = [...this.boxes].filter(([, { inside }]) => inside.includes(label)).map(([code]) => code)
    if (places.length > 1) throw new Error(`The model itself has ${label} in ${places.join(' and ')}`)
    return places[0]
  }

  open(code: string): boolean {
    if (this.boxes.has(code)) return false
    this.boxes.set(code, { inside: [], sealed: false, received: false, holder: undefined, waitsFor: undefined })
    return true
  }

  pack(code: string, label: string): boolean {
    const box = this.boxes.get(code)
    if (box === undefined || box.sealed || box.received || !this.bottles.has(label)) return false
    if (this.where(label) !== undefined) return false
    const parties = new Set([...box.inside, label].map((one) => this.bottles.get(one)?.party))
    if (parties.size > 1) return false
    box.inside.push(label)
    return true
  }

  unpack(code: string, label: string): boolean {
    const box = this.boxes.get(code)
    if (box === undefined || box.sealed || box.received || !box.inside.includes(label)) return false
    box.inside.splice(box.inside.indexOf(label), 1)
    return true
  }

  seal(code: string, seal: string): boolean {
    const box = this.boxes.get(code)
    if (box === undefined || box.sealed || box.received || box.inside.length === 0 || this.seals.has(seal)) return false
    this.seals.add(seal)
    box.sealed = true
    return true
  }

  breakSeal(code: string): boolean {
    const box = this.boxes.get(code)
    if (box === undefined || !box.sealed) return false
    box.sealed = false
    return true
  }

  handOver(code: string, { from, to, half }: { from: string; to: string; half: boolean }): boolean {
    const box = this.boxes.get(code)
    if (box === undefined || box.received || box.waitsFor !== undefined || from === to) return false
    if (box.holder !== undefined && box.holder !== from) return false
    if (half) box.waitsFor = to
    else box.holder = to
    return true
  }

  receive(code: string, listed: readonly string[]): boolean {
    const box = this.boxes.get(code)
    if (box === undefined || box.received) return false
    if (listed.length !== box.inside.length || !listed.every((label) => box.inside.includes(label))) return false
    box.received = true
    return true
  }

  split(label: string, { part, volumeMl, party }: { part: string; volumeMl: number; party: string }): boolean {
    const bottle = this.bottles.get(label)
    const place = this.where(label)
    const box = place === undefined ? undefined : this.boxes.get(place)
    if (bottle === undefined || this.bottles.has(part) || (box?.sealed === true && !box.received)) return false
    if (volumeMl >= bottle.volumeMl) return false
    bottle.volumeMl -= volumeMl
    this.bottles.set(part, { volumeMl, party })
    return true
  }
}
