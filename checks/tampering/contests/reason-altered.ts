import { LABEL } from '@rillmark/exchange/verify/verify.fixture.ts'
import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'what spoke against a contested entry is altered',
  layer: 'signatures',
  names: 'entry 13',
  tamper: () =>
    altered(
      13,
      ({ body }) => (body['issues'] = [{ path: 'body.label', expected: 'a sample that is whole', received: LABEL }]),
    ),
}
