import limits from '@rillmark/reference/building/limits.json' with { type: 'json' }
import { findPipeSize } from '@rillmark/science/pipes/pipe-catalogue.ts'
import { mixAsked } from './check-feeds.ts'
import type { CheckInput } from './check-parts.ts'
import { placeOf } from './check-parts.ts'

import type { Component, Pipe, Use } from './water-system.ts'
import { isHeater, isOutlet } from './water-system.ts'

const FREEZES_C = limits.waterFreezesC.value
const BOILS_C = limits.waterBoilsC.value
const MINUTES_A_DAY = 24 * 60

/** Dimensions, temperatures, flows and residuals that cannot be, or that contradict each other. */
export function checkFigures(input: CheckInput): void {
  checkSupply(input)
  for (const pipe of input.pipes) checkPipe(input, pipe)
  const hottestC = input.components.reduce(
    (hottest, one) => (isHeater(one) ? Math.max(hottest, one.setpointC ?? BOILS_C) : hottest),
    Number.NEGATIVE_INFINITY,
  )
  for (const component of input.components) {
    checkComponent(input, component)
    if (isOutlet(component)) checkUse(input, { component, hottestC })
  }
}

function checkSupply({ supply, report }: CheckInput): void {
  if (supply === undefined) return
  const { temperatureC, disinfectant } = supply
  if (temperatureC < FREEZES_C || temperatureC > BOILS_C)
    report({ at: 'supply.temperatureC', expected: `${FREEZES_C} to ${BOILS_C} °C`, received: temperatureC })
  else if (temperatureC > limits.warmSupplyC.value)
    report({
      at: 'supply.temperatureC',
      expected: `at most ${limits.warmSupplyC.value} °C of a cold supply`,
      received: temperatureC,
      severity: 'warning',
    })
  checkDisinfectant(report, disinfectant)
}

function checkDisinfectant(
  report: CheckInput['report'],
  { kind, residualMgPerL }: { kind: string; residualMgPerL?: number | undefined },
): void {
  const at = 'supply.disinfectant'
  if (kind === 'unknown')
    report({
      at: `${at}.kind`,
      expected: 'a known disinfectant: it decides the test kit and the neutralizer',
      received: kind,
      severity: 'warning',
    })
  if (kind === 'none' && (residualMgPerL ?? 0) > 0)
    report({ at: `${at}.residualMgPerL`, expected: '0 where there is no disinfectant', received: residualMgPerL })
  if (kind !== 'none' && kind !== 'unknown' && residualMgPerL === undefined)
    report({ at: `${at}.residualMgPerL`, expected: 'the residual in mg/L', received: undefined, severity: 'warning' })
  if ((residualMgPerL ?? 0) > limits.largestResidualMgPerL.value)
    report({
      at: `${at}.residualMgPerL`,
      expected: `at most ${limits.largestResidualMgPerL.value} mg/L of a supply`,
      received: residualMgPerL,
      severity: 'warning',
    })
}

function checkPipe(input: CheckInput, pipe: Pipe): void {
  const say = (fact: keyof Pipe, found: { expected: string; received: unknown; severity?: 'warning' }): void =>
    input.report({ at: placeOf(input, { thing: pipe, fact }), component: pipe.id, ...found })
  const { boreMm, outsideDiameterMm } = pipe
  checkPipeSize(pipe, say)
  if (boreMm !== undefined && outsideDiameterMm !== undefined && outsideDiameterMm <= boreMm)
    say('outsideDiameterMm', { expected: `more than the bore, ${boreMm} mm`, received: outsideDiameterMm })
  if (boreMm !== undefined && (boreMm > limits.widestBoreMm.value || boreMm < limits.narrowestBoreMm.value))
    say('boreMm', {
      expected: `${limits.narrowestBoreMm.value} to ${limits.widestBoreMm.value} mm`,
      received: boreMm,
      severity: 'warning',
    })
  if (pipe.lengthM > limits.longestPipeM.value)
    say('lengthM', { expected: `at most ${limits.longestPipeM.value} m`, received: pipe.lengthM, severity: 'warning' })
  if ((pipe.insulationMm ?? 0) > limits.thickestInsulationMm.value)
    say('insulationMm', {
      expected: `at most ${limits.thickestInsulationMm.value} mm`,
      received: pipe.insulationMm,
      severity: 'warning',
    })
}

type Say = (fact: keyof Pipe, found: { expected: string; received: unknown; severity?: 'warning' }) => void

function checkPipeSize({ boreMm, standard, size }: Pipe, say: Say): void {
  const sized = standard !== undefined && size !== undefined
  if (boreMm === undefined && !sized)
    return say('boreMm', { expected: 'the bore, or a standard and size of the pipe catalogue', received: undefined })
  if ((standard === undefined) !== (size === undefined))
    return say(standard === undefined ? 'standard' : 'size', {
      expected: 'standard and size together',
      received: undefined,
    })
  if (!sized) return
  const entry = findPipeSize({ standard, size })
  if (entry === undefined) {
    say('size', { expected: 'a standard and size of the pipe catalogue', received: `${standard} ${size}` })
    return
  }
  const allowed = limits.sizeAgreementFraction.value * entry.boreMm
  if (boreMm !== undefined && Math.abs(boreMm - entry.boreMm) > allowed)
    say('boreMm', { expected: `about ${entry.boreMm} mm, the bore of ${standard} ${size}`, received: boreMm })
}

function checkComponent(input: CheckInput, component: Component): void {
  const { setpointC, volumeL, kind } = component
  const say = (fact: string, found: { expected: string; received: unknown; severity?: 'warning' }): void =>
    input.report({ at: placeOf(input, { thing: component, fact }), component: component.id, ...found })
  if (setpointC !== undefined && (setpointC <= FREEZES_C || setpointC > BOILS_C))
    say('setpointC', { expected: `more than ${FREEZES_C} and at most ${BOILS_C} °C`, received: setpointC })
  else if (setpointC !== undefined && input.supply !== undefined && setpointC <= input.supply.temperatureC)
    say('setpointC', { expected: `above the supply, ${input.supply.temperatureC} °C`, received: setpointC })
  if (isHeater(component) && setpointC === undefined)
    say('setpointC', { expected: 'the temperature it is set to', received: undefined, severity: 'warning' })
  if ((kind === 'storage-heater' || kind === 'cold-tank') && volumeL === undefined)
    say('volumeL', { expected: 'its volume in litres', received: undefined, severity: 'warning' })
  if ((volumeL ?? 0) > limits.largestTankL.value)
    say('volumeL', { expected: `at most ${limits.largestTankL.value} L`, received: volumeL, severity: 'warning' })
  if (component.use !== undefined && !isOutlet(component))
    say('use', { expected: 'a use on outlets and devices only', received: kind })
}

function checkUse(input: CheckInput, { component, hottestC }: { component: Component; hottestC: number }): void {
  const { use, id } = component
  if (use === undefined) return
  const say = (fact: string, found: { expected: string; received: unknown; severity?: 'warning' }): void =>
    input.report({ at: placeOf(input, { thing: component, fact: `use.${fact}` }), component: id, ...found })
  const mixToC = mixAsked(use)
  if (mixToC !== undefined && mixToC > hottestC && Number.isFinite(hottestC))
    say('mixToC', { expected: `at most the hottest heater, ${hottestC} °C`, received: mixToC, severity: 'warning' })
  else if (mixToC !== undefined && mixToC < (input.supply?.temperatureC ?? mixToC))
    say('mixToC', { expected: `at least the supply, ${input.supply?.temperatureC} °C`, received: mixToC })
  const minutes = minutesADay(use)
  if (minutes > MINUTES_A_DAY)
    say('minutes', { expected: 'at most 24 hours of use a day', received: `${(minutes / 60).toFixed(1)} hours` })
  const flow = largestFlow(use)
  const most = limits.largestOutletFlowLPerMin.value
  if (flow > most)
    say('flowLPerMin', { expected: `at most ${most} L/min at one outlet`, received: flow, severity: 'warning' })
  const clash = use.pattern === 'schedule' ? overlap(use.draws) : undefined
  if (clash !== undefined)
    say('draws', { expected: 'draws that end before the next begins', received: clash, severity: 'warning' })
}

function minutesADay(use: Use): number {
  if (use.pattern === 'pulses') return use.eventsPerDay * use.minutes
  return use.pattern === 'schedule' ? use.draws.reduce((sum, draw) => sum + draw.minutes, 0) : 0
}

function largestFlow(use: Use): number {
  if (use.pattern === 'unused') return 0
  return use.pattern === 'schedule'
    ? use.draws.reduce((most, draw) => Math.max(most, draw.flowLPerMin), 0)
    : use.flowLPerMin
}

function overlap(draws: readonly { at: string; minutes: number }[]): string | undefined {
  const starts = draws
    .map(({ at, minutes }) => ({ at, minutes, start: Number(at.slice(0, 2)) * 60 + Number(at.slice(3)) }))
    .sort((a, b) => a.start - b.start)
  for (const [index, draw] of starts.entries()) {
    const next = starts[index + 1]
    if (next !== undefined && draw.start + draw.minutes > next.start) return `${draw.at} runs into ${next.at}`
  }
  return undefined
}
