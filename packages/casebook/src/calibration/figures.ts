import fit from '@rillmark/reference/calibration/fit.json' with { type: 'json' }

const { readings, priors, judging, tried } = fit

/** What a fit to readings supposes; each figure's source is in `reference/calibration/fit.json`. */
export const FITTING = {
  thermometerSdC: readings.thermometerSdC.value,
  modelSdC: readings.modelSdC.value,
  residualSdShare: readings.residualSdShare.value,
  residualSdMgPerL: readings.residualSdMgPerL.value,
  timingSd: readings.timingSd.value,
  lagSeconds: readings.lagSeconds.value,
  tapFlowLPerMin: readings.tapFlowLPerMin.value,
  ambientShiftK: priors.ambientShiftK.value,
  hotLossSd: priors.hotLossSd.value,
  coldLossSd: priors.coldLossSd.value,
  loopFlowSd: priors.loopFlowSd.value,
  setpointShiftK: priors.setpointShiftK.value,
  bulkSd: priors.bulkSd.value,
  wallSd: priors.wallSd.value,
  supplyTemperatureSdK: priors.supplyTemperatureSdK.value,
  supplyResidualSd: priors.supplyResidualSd.value,
  sizeSd: priors.sizeSd.value,
  level: judging.level.value,
  huberLimit: judging.huberLimit.value,
  freedom: judging.freedom.value,
  unexplainedBeyond: judging.unexplainedBeyond.value,
  strainedBeyond: judging.strainedBeyond.value,
  convincingAbove: judging.convincingAbove.value,
  aboutAsWellWithin: judging.aboutAsWellWithin.value,
  clearlyBehindBy: judging.clearlyBehindBy.value,
  mostReasons: judging.mostReasons.value,
  mostTried: judging.mostTried.value,
  crossFlowsLPerMin: tried.crossFlowsLPerMin.value,
  branchFactors: tried.branchFactors.value,
  slowFlowShares: tried.slowFlowShares.value,
  setpointDropsK: tried.setpointDropsK.value,
} as const
