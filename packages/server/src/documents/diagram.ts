import { drawSystem } from '@rillmark/casebook/drawing/draw-scene.ts'
import { sceneToSvg } from '@rillmark/casebook/drawing/svg.ts'
import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { documentKind } from './document-kind.ts'
import { unitsAsked, unitsQuery } from './reader-units.ts'

export const diagramDocument = documentKind({
  title: 'Riser diagram',
  contentType: 'image/svg+xml',
  fileName: ({ investigation }) => `${investigation}-diagram.svg`,
  query: unitsQuery,
  make: ({ state, query }) => {
    const { system } = state.building
    if (system === undefined)
      return { issues: [statedIssue('building', { expected: 'a described building', received: undefined })] }
    return sceneToSvg(drawSystem(system, { units: unitsAsked(query) }))
  },
})
