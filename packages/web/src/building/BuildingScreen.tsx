import { type ReactNode, useState } from 'react'
import { useInvestigation } from '../store/investigation.tsx'
import './building.css'
import { BuildingInHand } from './BuildingInHand.tsx'
import { DescribeBuilding } from './DescribeBuilding.tsx'

/** The building's water: how it is laid out, how sure each fact is, what wets air, what changed lately. */
export function BuildingScreen(): ReactNode {
  const { state } = useInvestigation()
  const [anew, setAnew] = useState(false)
  const { system } = state.building
  if (system === undefined || anew) return <DescribeBuilding replaces={system} onDone={() => setAnew(false)} />
  return <BuildingInHand system={system} onDescribeAnew={() => setAnew(true)} />
}
