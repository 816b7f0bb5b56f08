// Runs one long calculation beside the server's main thread, and ends.
import { parentPort, workerData } from 'node:worker_threads'
import { type CalculationRequest, runCalculation } from '@rillmark/science/catalogue/catalogue.ts'

// oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker thread has no origin
parentPort?.postMessage(runCalculation(workerData as CalculationRequest))
