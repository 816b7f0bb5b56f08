// Draws the icons of the installed app from the mark in packages/web/public/mark.svg, as PNG in packages/web/public/icons: the drawing as it is, and
// one with more sheet around it for systems that cut icons round. Run it when the mark changes; the pictures are kept in the repository.
import { mkdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { chromium } from '@playwright/test'
import { chromiumLaunchOptions } from './phases/chromium.ts'
import { ROOT } from './phases/command.ts'

interface Icon {
  readonly file: string
  readonly sizePx: number
  /** the part of the width the mark takes; less than all keeps it within the circle that is left after cutting */
  readonly fraction: number
}

const ICONS: readonly Icon[] = [
  { file: 'icon-192.png', sizePx: 192, fraction: 1 },
  { file: 'icon-512.png', sizePx: 512, fraction: 1 },
  { file: 'icon-cut-512.png', sizePx: 512, fraction: 0.72 },
  { file: 'icon-180.png', sizePx: 180, fraction: 0.86 },
]
const SHEET = '#fbfaf6'

const folder = join(ROOT, 'packages/web/public')
const mark = readFileSync(join(folder, 'mark.svg'), 'utf8')
mkdirSync(join(folder, 'icons'), { recursive: true })
const browser = await chromium.launch(chromiumLaunchOptions())
const page = await browser.newPage()
for (const { file, sizePx, fraction } of ICONS) {
  const sheet = fraction === 1 ? 'transparent' : SHEET
  const markPx = Math.round(sizePx * fraction)
  await page.setViewportSize({ width: sizePx, height: sizePx })
  await page.setContent(
    `<style>html{background:${sheet}}body{margin:0;display:grid;place-items:center;height:100vh}svg{width:${markPx}px}</style>${mark}`,
  )
  await page.screenshot({ path: join(folder, 'icons', file), omitBackground: fraction === 1 })
}
await browser.close()
