import type { QuickDescription } from './quick-description.ts'

/** The invented building of the worked example, as its water person would describe it in two minutes. */
export const marramHouse: QuickDescription = {
  name: 'Marram House',
  floors: 6,
  plant: { position: 'bottom', name: 'Plant' },
  risers: ['A', 'B', 'C', 'D'],
  outlets: { shower: 1, 'basin-tap': 2, 'kitchen-tap': 1 },
  overrides: [
    { floor: 1, outlets: { 'basin-tap': 2, 'cleaner-sink': 1 } },
    { floor: 1, riser: 'A', outlets: { 'basin-tap': 2, 'ice-machine': 1, 'hose-tap': 1 } },
  ],
  heaters: [
    { kind: 'storage', volumeL: 1000, setpointC: 60 },
    { kind: 'storage', volumeL: 1000, setpointC: 60 },
  ],
  recirculation: 'per-riser',
  mixing: 'none',
  supply: { disinfectant: 'chloramine', residualMgPerL: 1.9, temperatureC: 14, pH: 8.1 },
}

/** A description with so many floors, risers and outlets on each, for drawings and speed. */
export const grid = (size: { floors: number; risers: number; each: number }): QuickDescription => ({
  ...marramHouse,
  name: `${size.floors} × ${size.risers} × ${size.each}`,
  floors: size.floors,
  risers: size.risers,
  outlets: {
    shower: Math.ceil(size.each / 3),
    'basin-tap': Math.floor(size.each / 3),
    'kitchen-tap': size.each - Math.ceil(size.each / 3) - Math.floor(size.each / 3),
  },
  overrides: [],
})
