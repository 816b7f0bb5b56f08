import { toSVG } from 'bwip-js/generic'

/** A Data Matrix (ISO/IEC 16022, ECC 200) of a sample label as SVG text: square, black on white, one module of quiet zone. */
export function dataMatrixSvg(text: string): string {
  return toSVG({ bcid: 'datamatrix', text, scale: 2, paddingwidth: 2, paddingheight: 2 })
}
