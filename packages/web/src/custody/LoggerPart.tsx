import { outsideTime, transportWindow } from '@rillmark/casebook/custody/logger-trace.ts'
import { traceWords } from '@rillmark/casebook/custody/trace-words.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import type { LoggerFile } from '@rillmark/exchange/custody/logger-csv.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { FileDrop } from '../kit/FileDrop.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { Note } from '../kit/Note.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { localInstant } from '../store/local-time.ts'
import type { BoxDialogProps } from './box-dialog.ts'
import { OFFSETS } from './offsets.ts'
import { TraceChart } from './TraceChart.tsx'
import type { LoggerFileState } from './use-logger-file.ts'

const MOST_ROWS = 20
const ROW = { one: 'row is', many: 'rows are' }

/** A logger's file: read, looked at, and only then written into the record. */
export function LoggerPart(props: {
  readonly box: BoxDialogProps['box']
  readonly logger: LoggerFileState
}): ReactNode {
  const { box, logger } = props
  const { file, read } = logger
  return (
    <div className="form">
      {file === undefined ? (
        <FileDrop
          label="the file of the logger"
          hint="A CSV with a time and a temperature, °C or °F named in its heading."
          accept={['.csv', '.txt', 'text/csv', 'text/plain']}
          onFiles={([first]) => first !== undefined && void logger.open(first)}
        />
      ) : (
        <>
          <p>
            <b>{file.name}</b>{' '}
            <Button kind="text" onPress={logger.drop}>
              Another file
            </Button>
          </p>
          <Choices logger={logger} />
        </>
      )}
      {read?.ok === false && <ProblemList problems={read.issues} />}
      {read?.ok === true && <Found read={read} box={box} />}
      <ProblemList problems={logger.issues} />
    </div>
  )
}

function Choices({ logger: { read, choices, choose } }: { readonly logger: LoggerFileState }): ReactNode {
  return (
    <>
      <FormRow>
        <Select
          label="Clock of the logger"
          hint="Where the file names no zone."
          value={choices.offset}
          onChange={(offset) => choose({ offset })}
          choices={OFFSETS}
        />
        <TextField
          label="Logger"
          hint="Its number, as on its back."
          value={choices.logger}
          onChange={(logger) => choose({ logger })}
        />
      </FormRow>
      {read?.ok === false && read.needs === 'unit' && (
        <Select
          label="Its temperatures are in"
          value={choices.unit ?? ''}
          onChange={(unit) => choose({ unit })}
          choices={[
            { id: 'C', label: '°C' },
            { id: 'F', label: '°F' },
          ]}
        />
      )}
      {read?.ok === true && read.orderDoubtful && (
        <Select
          label="Its dates are written"
          value={read.order}
          onChange={(order) => choose({ order })}
          choices={[
            { id: 'day-month-year', label: 'day, month, year' },
            { id: 'month-day-year', label: 'month, day, year' },
          ]}
        />
      )}
      {read?.ok === true && read.others.length > 0 && (
        <Select
          label="Column of the temperature"
          value={String(read.column.at)}
          onChange={(column) => choose({ column: Number(column) })}
          choices={[{ column: read.column.at, head: read.column.head }, ...read.others].map(({ column, head }) => ({
            id: String(column),
            label: head,
          }))}
        />
      )}
    </>
  )
}

function Found({ read, box }: { readonly read: LoggerFile; readonly box: BoxDialogProps['box'] }): ReactNode {
  const { state } = useInvestigation()
  const held = state.custody.consignments.get(box.code)
  const { range } = box.temperature
  const intervals = read.readings.slice(1).map(({ atMs }, at) => (atMs - (read.readings[at]?.atMs ?? atMs)) / 1000)
  const usualSeconds = intervals.sort((a, b) => a - b)[Math.floor((intervals.length - 1) / 2)]
  const trace = {
    points: read.readings,
    usualSeconds,
    logger: undefined,
    fileName: undefined,
    entries: [],
    missingPieces: [],
    offset: localInstant(read.readings[0]?.atMs).offset,
  }
  const outside =
    range === undefined || held === undefined ? undefined : outsideTime(trace, { range, window: transportWindow(held) })
  return (
    <>
      <p>
        {traceWords({ ...trace, outside })}, in °{read.unit}.
      </p>
      {(read.repeated > 0 || read.outOfOrder > 0) && (
        <p className="quiet">
          {read.repeated} said twice and counted once, {read.outOfOrder} out of order and put in order.
        </p>
      )}
      <TraceChart points={read.readings} usualSeconds={usualSeconds} offset={trace.offset} range={range} />
      {read.leftOut.length > 0 && (
        <>
          <Note kind="warn">{counted(read.leftOut.length, ROW)} left out.</Note>
          <Disclosure summary="Which rows, and why">
            <ul className="trace-left-out">
              {read.leftOut.slice(0, MOST_ROWS).map(({ line, why }) => (
                <li key={line}>
                  line {line}: {why}
                </li>
              ))}
            </ul>
            {read.leftOut.length > MOST_ROWS && <p className="quiet">and {read.leftOut.length - MOST_ROWS} more</p>}
          </Disclosure>
        </>
      )}
    </>
  )
}
