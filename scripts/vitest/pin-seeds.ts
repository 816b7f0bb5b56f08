import * as fc from 'fast-check'

/** Every property that names no seed of its own is tried from this one, so that a run tells of the code and not of chance; another by RILLMARK_SEED. */
const SEED = 20261130

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(process.env['RILLMARK_SEED'] ?? SEED) })
