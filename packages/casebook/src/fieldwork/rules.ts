import type { Rules } from '../rules/rule.ts'
import {
  curveRunsForward,
  hotComesLast,
  inCalibration,
  instrumentFits,
  instrumentIsSound,
  kitIsFineEnough,
  residualTestFits,
} from './rules-reading.ts'
import { atItsPlace, labelIsNew, labelIsOfStop, samplesInOrder } from './rules-sample.ts'
import { addedStopIsSound, outcomeIsTrue, stopIsKnown } from './rules-stop.ts'

export const fieldworkRules: Rules = {
  'instrument.registered': [instrumentIsSound],
  'stop.added': [addedStopIsSound],
  'stop.started': [stopIsKnown],
  'step.done': [stopIsKnown],
  'sample.collected': [stopIsKnown, atItsPlace, labelIsOfStop, labelIsNew, samplesInOrder],
  'reading.taken': [
    stopIsKnown,
    atItsPlace,
    instrumentFits,
    inCalibration,
    residualTestFits,
    kitIsFineEnough,
    hotComesLast,
    curveRunsForward,
  ],
  'deviation.recorded': [stopIsKnown],
  'photo.taken': [stopIsKnown],
  'stop.finished': [stopIsKnown, outcomeIsTrue],
}
