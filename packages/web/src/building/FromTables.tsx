import { ASSUMED } from '@rillmark/casebook/building/assumptions.ts'
import { checkSystem } from '@rillmark/casebook/building/check-system.ts'
import type { DisinfectantKind, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { mergeCsv } from '@rillmark/exchange/building/csv-tables.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { RiserDiagram } from '../drawing/RiserDiagram.tsx'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { readTypedNumber } from '../kit/typed-number.ts'
import { useInvestigation } from '../store/investigation.tsx'
import type { DescribeProps } from './DescribeBuilding.tsx'
import { FileProblems, summary } from './FromFile.tsx'
import { TableDrop, type TableFile } from './TableDrop.tsx'
import { DISINFECTANT_CHOICES } from './words.ts'

/** A building from two tables, with the little that no table says. */
export function FromTables({ replaces, onDone }: DescribeProps): ReactNode {
  const { state, propose } = useInvestigation()
  const [name, setName] = useState(state.brief.opened?.body.title ?? '')
  const [disinfectant, setDisinfectant] = useState<DisinfectantKind | ''>('')
  const [residual, setResidual] = useState('')
  const [parts, setParts] = useState<TableFile>()
  const [pipes, setPipes] = useState<TableFile>()
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const read = useMemo(
    () => (parts === undefined ? undefined : systemOf({ name, disinfectant, residual, parts, pipes })),
    [name, disinfectant, residual, parts, pipes],
  )

  const record = async (system: WaterSystem): Promise<void> => {
    const proposed = await propose('building.described', { source: 'tables', system })
    if (proposed.ok) onDone()
    else setRefused(proposed.issues)
  }
  const take = (set: (table: TableFile) => void) => (file: TableFile) => {
    setRefused([])
    set(file)
  }

  return (
    <div className="describe-way">
      <FormRow>
        <TextField label="Name" value={name} onChange={setName} required />
        <Select
          label="Disinfectant of the supply"
          value={disinfectant}
          onChange={setDisinfectant}
          choices={DISINFECTANT_CHOICES}
          required
        />
        <NumberField label="Residual" unit="mg/L" value={residual} onChange={setResidual} min={0} />
      </FormRow>
      <TableDrop table="components" file={parts} onFile={take(setParts)} />
      <TableDrop table="pipes" file={pipes} onFile={take(setPipes)} />
      {read !== undefined && (
        <>
          <FileProblems problems={[...refused, ...read.errors]} kind="bad" name="The tables" />
          <FileProblems problems={read.warnings} kind="warn" name="the tables" />
          <ButtonRow>
            <Button
              kind="primary"
              disabled={read.errors.length > 0 || disinfectant === '' || name.trim() === ''}
              onPress={() => void record(read.system)}
            >
              {replaces === undefined ? 'Describe the building from them' : 'Replace the description by them'}
            </Button>
            <span>{summary(read.system)}</span>
          </ButtonRow>
          <div className="describe-drawing">
            <RiserDiagram system={read.system} />
          </div>
        </>
      )}
    </div>
  )
}

interface Given {
  readonly name: string
  readonly disinfectant: DisinfectantKind | ''
  readonly residual: string
  readonly parts: TableFile
  readonly pipes: TableFile | undefined
}

function systemOf({ name, disinfectant, residual, parts, pipes }: Given) {
  const typed = readTypedNumber(residual)
  const kind = disinfectant === '' ? 'unknown' : disinfectant
  const bare: WaterSystem = {
    format: 'rillmark/water-system@1',
    name: name.trim() === '' ? 'Building' : name.trim(),
    supply: {
      temperatureC: ASSUMED.supplyC,
      disinfectant: typed.kind === 'number' ? { kind, residualMgPerL: typed.value } : { kind },
      provenance: { default: 'told', temperatureC: 'guessed' },
    },
    components: [],
    pipes: [],
  }
  const withParts = mergeCsv(bare, { table: 'components', file: parts.bytes })
  const merged = pipes === undefined ? withParts : mergeCsv(withParts.system, { table: 'pipes', file: pipes.bytes })
  const rows = pipes === undefined ? withParts.issues : [...withParts.issues, ...merged.issues]
  const problems = checkSystem(merged.system)
  return {
    system: merged.system,
    errors: [...rows, ...problems.filter(({ severity }) => severity === 'error')],
    warnings: problems.filter(({ severity }) => severity === 'warning'),
  }
}
