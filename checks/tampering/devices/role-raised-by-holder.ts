import { resigned } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'whoever holds the reader’s device makes it a lead and signs that',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () => resigned(17, { by: 'tablet-1', change: ({ body }) => (body['role'] = 'lead') }),
}
