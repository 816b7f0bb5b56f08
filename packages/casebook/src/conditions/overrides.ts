/**
 * What is taken otherwise than described, for "what if", sensitivity and fits to readings. Applied when the network is made; the
 * description stays as it is. Factors of 1, shifts of 0 and empty lists change nothing. Parts are named by their ids.
 */
export interface ConditionsOverrides {
  /** Another value for what was filled in, by the id of its assumption, in its unit: `{ ambientC: 26, 'guessed:lengthM': 1.5 }`. */
  assumed?: Readonly<Record<string, number>> | undefined
  /** Kelvin added to the air around every pipe, tank and heater. */
  ambientShiftK?: number | undefined
  /** Times the heat lost by every pipe that carries hot, tempered or returning water, and by every heater. */
  hotLossFactor?: number | undefined
  /** Times the heat taken up by every cold pipe and cold tank. */
  coldLossFactor?: number | undefined
  /** Times the length of single pipes: a branch that goes further than is drawn. */
  lengthFactor?: Readonly<Record<string, number>> | undefined
  /** Times the flow of every return and pump that is described. */
  loopFlowFactor?: number | undefined
  /** The flow of single return pipes, in place of what is described; `loopFlowFactor` still applies. */
  loopFlowLPerMin?: Readonly<Record<string, number>> | undefined
  /** Pipes that let nothing through: a stopped loop, a closed valve. */
  closedPipes?: readonly string[] | undefined
  /** The set point of single heaters and mixing valves. */
  setpointC?: Readonly<Record<string, number>> | undefined
  /** Cold water that passes into the hot side at a mixing valve or an outlet. */
  crossFlowLPerMin?: Readonly<Record<string, number>> | undefined
  bulkFactor?: number | undefined
  wallFactor?: number | undefined
  supplyTemperatureC?: number | undefined
  supplyResidualMgPerL?: number | undefined
}
