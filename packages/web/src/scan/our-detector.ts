import { BarcodeDetector, prepareZXingModule } from 'barcode-detector/ponyfill'
import wasm from 'zxing-wasm/reader/zxing_reader.wasm?url'
import type { Detector, ScanFormat } from './open-detector.ts'

// The library would fetch its program from a public server: it is given the copy that comes with the app, for use without a network.
prepareZXingModule({
  overrides: { locateFile: (path: string, prefix: string) => (path.endsWith('.wasm') ? wasm : prefix + path) },
})

/** A reader of symbols that needs nothing of the browser but a picture. */
export function ourDetector(formats: readonly ScanFormat[]): Detector {
  const detector = new BarcodeDetector({ formats: [...formats] })
  return { detect: (picture) => detector.detect(picture) }
}
