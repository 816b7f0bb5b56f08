// Schemas complain the same everywhere; their complaints are turned into issues in the lowest room.
export { issuesFromZod, parseWith } from '@rillmark/science/catalogue/from-zod.ts'
