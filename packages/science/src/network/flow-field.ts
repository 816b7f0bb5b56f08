/** Steady flows of a network for the demands of the moment. */
export interface FlowField {
  /** L/min in each pipe, positive from → to; valid after `settle`. */
  readonly flows: Float64Array
  /** L/min that a source or mixed node (by node index) sends out; valid after `settle`. */
  outflowOf: (node: number) => number
  /** Sets what is drawn at a node, L/min, 0 or more. Cheap: the work is done by `settle`. */
  setDemand: (node: number, lPerMin: number) => void
  /** Finds the flows. Only what changed since the last call is worked out anew. */
  settle: () => void
  /** Pipes whose flow may have changed since this was last asked, each once. */
  takeChanged: () => Int32Array
}
