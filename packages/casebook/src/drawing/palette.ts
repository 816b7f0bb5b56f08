/** The colours and weights of the drawing, by role. Circuits differ in weight and dash, states in form: colour only helps. */
export type Theme = 'light' | 'dark' | 'paper'

const LIGHT: Record<string, string> = {
  sheet: '#fbfaf6',
  'sheet-2': '#f3f1ea',
  rule: '#d9d5c8',
  ink: '#15222b',
  'ink-2': '#4c5a63',
  'ink-3': '#6b777e',
  accent: '#0b6a66',
  hot: '#a9432a',
  cold: '#2a659c',
  tempered: '#8a4f7d',
  warn: '#8a5a00',
  bad: '#a3231b',
  good: '#15222b',
}

const INK: Record<Theme, Record<string, string>> = {
  light: LIGHT,
  paper: { ...LIGHT, sheet: '#ffffff', 'sheet-2': '#f4f4f2' },
  dark: {
    sheet: '#10181d',
    'sheet-2': '#172229',
    rule: '#2c3a42',
    ink: '#e8edee',
    'ink-2': '#b0bcc1',
    'ink-3': '#8c9aa0',
    accent: '#5cc4bb',
    hot: '#e08a6d',
    cold: '#7fb3e3',
    tempered: '#c99bc0',
    warn: '#f0c063',
    bad: '#f08a80',
    good: '#e8edee',
  },
}

/**
 * The cividis map (Nuñez, Anderton and Renslow, PLoS ONE 13, 2018) at ten even steps from low to high, as the library
 * d3-scale-chromatic 3 computes it.
 */
const SCALE = [
  '#002051',
  '#0d346b',
  '#33486e',
  '#575c6e',
  '#737172',
  '#8b8677',
  '#a49d78',
  '#c3b56d',
  '#e6cf59',
  '#fdea45',
]

const ROLES = `
.rl{font-family:"IBM Plex Sans",system-ui,sans-serif;font-size:12px;font-variant-numeric:tabular-nums}
.rl .sheet{fill:var(--rl-sheet)}
.rl text{fill:var(--rl-ink-2);stroke:none}
.rl .floor-line{stroke:var(--rl-rule);stroke-width:1}
.rl .floor-name,.rl .riser-name,.rl .equipment-name{fill:var(--rl-ink);font-weight:500}
.rl .riser-name{font-size:13px;font-weight:600}
.rl .equipment-figure{font-size:11px}
.rl .room{font-size:10px;fill:var(--rl-ink-3)}
.rl .room-line{stroke:var(--rl-rule);stroke-width:1}
.rl .wash{fill:none;stroke-width:7;stroke-linejoin:round;opacity:.75}
.rl .pipe{fill:none;stroke-linecap:square}
.rl .pipe-target{fill:none;stroke:none;pointer-events:stroke;stroke-width:7}
.rl .pipe.cold{stroke:var(--rl-cold);stroke-width:1.1}
.rl .pipe.hot{stroke:var(--rl-hot);stroke-width:1.5}
.rl .pipe.tempered{stroke:var(--rl-tempered);stroke-width:1.5;stroke-dasharray:9 2 2 2;stroke-linecap:butt}
.rl .pipe.hot-return{stroke:var(--rl-hot);stroke-width:1.3;stroke-dasharray:4 3;stroke-linecap:butt}
.rl .pipe.main.cold{stroke-width:1.3}
.rl .pipe.main.hot,.rl .pipe.main.tempered{stroke-width:2.6}
.rl .joint{stroke:none}
.rl .joint.cold{fill:var(--rl-cold)}
.rl .joint.hot,.rl .joint.hot-return{fill:var(--rl-hot)}
.rl .joint.tempered{fill:var(--rl-tempered)}
.rl .equipment-box{fill:var(--rl-sheet);stroke:var(--rl-ink);stroke-width:1.4}
.rl .equipment-detail{fill:var(--rl-sheet);stroke:var(--rl-ink-2);stroke-width:1.2;stroke-linejoin:round}
.rl .storage-heater .equipment-detail,.rl .instant-heater .equipment-detail,.rl .cold-tank .equipment-detail{fill:none}
.rl .equipment-fill{fill:var(--rl-ink)}
.rl .glyph{fill:var(--rl-ink-2);stroke:var(--rl-ink-2);stroke-width:1;stroke-linejoin:round}
.rl .glyph.open,.rl .unused .glyph{fill:var(--rl-sheet);stroke-width:1.4}
.rl .unused .glyph{stroke-dasharray:2 1.4}
.rl .glyph.valve{fill:var(--rl-sheet);stroke:var(--rl-ink);stroke-width:1}
.rl .target{fill:none;pointer-events:all;stroke:none}
.rl .counted-box{fill:var(--rl-sheet-2);stroke:var(--rl-ink-3);stroke-width:1}
.rl .counted-text{fill:var(--rl-ink);font-weight:500}
.rl .backing{fill:var(--rl-sheet);stroke:none}
.rl .counted .backing{fill:var(--rl-sheet-2)}
.rl .mark-form{fill:none;stroke:var(--rl-ink);stroke-width:1.6}
.rl .mark-form.dashed-ring{stroke-dasharray:2.4 2.2}
.rl .mark-text{font-family:"IBM Plex Mono",ui-monospace,monospace;font-size:11px;fill:var(--rl-ink);paint-order:stroke;stroke:var(--rl-sheet);stroke-width:3px;stroke-linejoin:round}
.rl .counted .mark-text{stroke:none}
.rl .mark-text.bad,.rl .mark-text.warn{font-weight:600}`

const TONES: Record<string, string> = {
  plain: 'var(--rl-ink)',
  muted: 'var(--rl-ink-3)',
  accent: 'var(--rl-accent)',
  good: 'var(--rl-good)',
  warn: 'var(--rl-warn)',
  bad: 'var(--rl-bad)',
}

const FILLED = ['disc', 'square', 'diamond', 'triangle', 'dot']

/** The rules that give the forms of one tone its colour. */
function toneRules(tone: string, given: { fill: string; stroke: string }): string {
  const filled = FILLED.map((form) => `.rl .mark-form.${form}.${tone}`).join(',')
  return `.rl .mark-form.${tone}{stroke:${given.stroke}}${filled}{fill:${given.fill}}`
}

/** What each role looks like, for an app that sets the `--rl-` variables itself. */
export const DRAWING_RULES = [
  ROLES.replaceAll('\n', ''),
  ...Object.entries(TONES).map(([tone, colour]) => toneRules(tone, { fill: colour, stroke: colour })),
  ...SCALE.map((colour, index) => toneRules(`scale-${index}`, { fill: colour, stroke: 'var(--rl-ink-2)' })),
  ...SCALE.map((colour, index) => `.rl .wash.scale-${index}{stroke:${colour}}`),
].join('')

/** The style sheet of a drawing that stands alone: plain values, since printing programs know no variables. */
export const drawingCss = (theme: Theme): string =>
  DRAWING_RULES.replaceAll(/var\(--rl-([a-z0-9-]+)\)/g, (_, name: string) => INK[theme][name] ?? 'currentColor')
