import { drawingSVG, qrcode } from 'bwip-js/generic'

/** Modules of nothing around the code (ISO/IEC 18004). */
const QUIET = 4
const MODULE_PX = 2

/** A QR code (ISO/IEC 18004, level M) as SVG text, dark on light with its quiet zone. Small enough to be fetched by a page that shows one. */
export function qrSvg(text: string): string {
  const padding = QUIET * MODULE_PX
  const options = { bcid: 'qrcode', text, eclevel: 'M', scale: MODULE_PX, backgroundcolor: 'ffffff' }
  return qrcode({ ...options, paddingwidth: padding, paddingheight: padding }, drawingSVG())
}
