import type { DisinfectantKind } from '@rillmark/casebook/building/water-system.ts'

/** The residual to measure: free chlorine only where chlorine is known to be the disinfectant, otherwise total. */
export function residualWords(disinfectant: DisinfectantKind | undefined): string {
  if (disinfectant === 'free-chlorine') return 'Free chlorine'
  return disinfectant === 'chlorine-dioxide' ? 'Chlorine dioxide' : 'Total chlorine'
}
