import { execFileSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { labelsPdf } from '../../../packages/exchange/src/plan/labels-pdf.ts'
import { roundPapers } from '../../../packages/exchange/src/plan/round-documents.ts'
import type { InvestigationState } from '../../../packages/casebook/src/state/investigation-state.ts'

const DOTS_PER_INCH = 300
const POINTS_PER_INCH = 72
const PICTURE = { width: 640, height: 480 }
/** grey of the wall beside the paper, and no colour, in the 8 bits of BT.601 luma and chroma */
const WALL = 96
const NO_COLOUR = 128

/**
 * A film for the browser's pretended camera: one label of the printed sheet of a round, as the sheet's PDF comes out of the printer at 300
 * dots an inch, held still. YUV4MPEG2, 4:2:0 (from memory; the browser reads it).
 */
export function filmOfLabel(state: InvestigationState, label: string): string {
  const papers = roundPapers(state, {})
  if ('issues' in papers) throw new Error('There is no round to print labels for')
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-film-'))
  const pdf = join(folder, 'labels.pdf')
  writeFileSync(pdf, labelsPdf(papers))
  const place = whereIs(pdf, label)
  const path = join(folder, 'label.y4m')
  writeFileSync(path, filmOf(pageAsGrey(pdf, place.page), place))
  return path
}

interface Place {
  readonly page: number
  readonly xPt: number
  readonly yPt: number
}

/** The place of a word of a PDF, in points from the top left of its page. */
function whereIs(pdf: string, word: string): Place {
  const html = execFileSync('pdftotext', ['-bbox', pdf, '-'], { encoding: 'utf8' })
  for (const [index, page] of html.split('<page ').slice(1).entries()) {
    const [, x, y] = new RegExp(`xMin="([\\d.]+)" yMin="([\\d.]+)"[^>]*>${word}<`).exec(page) ?? []
    if (x !== undefined && y !== undefined) return { page: index + 1, xPt: Number(x), yPt: Number(y) }
  }
  throw new Error(`${word} is not on the sheet`)
}

interface Grey {
  readonly width: number
  readonly height: number
  readonly grey: Buffer
}

function pageAsGrey(pdf: string, page: number): Grey {
  const only = ['-f', String(page), '-l', String(page)]
  const pgm = execFileSync('pdftoppm', ['-gray', '-r', String(DOTS_PER_INCH), ...only, pdf], { maxBuffer: 100_000_000 })
  const [head, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(pgm.subarray(0, 40).toString('latin1')) ?? []
  return { width: Number(width), height: Number(height), grey: pgm.subarray(head?.length ?? 0) }
}

/** The symbol stands left of its words: it comes to the middle of the picture. */
function filmOf({ width, height, grey }: Grey, { xPt, yPt }: Place): Buffer {
  const scale = DOTS_PER_INCH / POINTS_PER_INCH
  const left = Math.round(xPt * scale) - PICTURE.width / 2 - 120
  const top = Math.round(yPt * scale) - PICTURE.height / 2 + 100
  const luma = Buffer.alloc(PICTURE.width * PICTURE.height, WALL)
  for (let y = 0; y < PICTURE.height; y += 1)
    for (let x = 0; x < PICTURE.width; x += 1) {
      const [atX, atY] = [left + x, top + y]
      if (atX < 0 || atY < 0 || atX >= width || atY >= height) continue
      luma[y * PICTURE.width + x] = 16 + Math.round(((grey[atY * width + atX] ?? 0) * 219) / 255)
    }
  const frame = [Buffer.from('FRAME\n'), luma, Buffer.alloc((PICTURE.width * PICTURE.height) / 2, NO_COLOUR)]
  const head = Buffer.from(`YUV4MPEG2 W${PICTURE.width} H${PICTURE.height} F10:1 Ip A1:1 C420jpeg\n`)
  return Buffer.concat([head, ...frame, ...frame])
}
