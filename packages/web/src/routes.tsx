import {
  createRootRoute,
  createRoute,
  createRouter,
  lazyRouteComponent,
  type ParsedLocation,
  redirect,
} from '@tanstack/react-router'
import { lastPlace } from './offline/last-place.ts'
import { RootLayout } from './shell/RootLayout.tsx'
import { NotFound, ScreenFailed, ScreenPending } from './shell/route-states.tsx'
import { StartScreen } from './start/StartScreen.tsx'

/** What to select on arrival: ?show=CODE. Screens read it with `useShow`. */
export interface StepSearch {
  readonly show?: string
}

const readSearch = (search: Record<string, unknown>): StepSearch =>
  typeof search['show'] === 'string' ? { show: search['show'] } : {}

const root = createRootRoute({ component: RootLayout, notFoundComponent: NotFound, errorComponent: ScreenFailed })
const start = createRoute({ getParentRoute: () => root, path: '/', component: StartScreen })
/** Where the installed app opens: the screen shown last. */
const open = createRoute({
  getParentRoute: () => root,
  path: '/open',
  beforeLoad: () => {
    throw redirect({ href: lastPlace(), replace: true })
  },
})

const investigation = createRoute({
  getParentRoute: () => root,
  path: '/i/$investigation',
  component: lazyRouteComponent(() => import('./shell/InvestigationLayout.tsx'), 'InvestigationLayout'),
  validateSearch: readSearch,
})
const at = () => investigation
const first = createRoute({
  getParentRoute: at,
  path: '/',
  beforeLoad: ({ params }) => {
    throw redirect({ to: '/i/$investigation/brief', params, replace: true })
  },
})

const brief = createRoute({
  getParentRoute: at,
  path: 'brief',
  component: lazyRouteComponent(() => import('./brief/BriefScreen.tsx'), 'BriefScreen'),
})
const cases = createRoute({
  getParentRoute: at,
  path: 'cases',
  component: lazyRouteComponent(() => import('./cases/CasesScreen.tsx'), 'CasesScreen'),
})
const building = createRoute({
  getParentRoute: at,
  path: 'building',
  component: lazyRouteComponent(() => import('./building/BuildingScreen.tsx'), 'BuildingScreen'),
})
const plan = createRoute({
  getParentRoute: at,
  path: 'plan',
  component: lazyRouteComponent(() => import('./plan/PlanScreen.tsx'), 'PlanScreen'),
})
const fieldwork = createRoute({
  getParentRoute: at,
  path: 'fieldwork',
  component: lazyRouteComponent(() => import('./fieldwork/FieldworkScreen.tsx'), 'FieldworkScreen'),
})
const custody = createRoute({
  getParentRoute: at,
  path: 'custody',
  component: lazyRouteComponent(() => import('./custody/CustodyScreen.tsx'), 'CustodyScreen'),
})
const results = createRoute({
  getParentRoute: at,
  path: 'results',
  component: lazyRouteComponent(() => import('./results/ResultsScreen.tsx'), 'ResultsScreen'),
})
const findings = createRoute({
  getParentRoute: at,
  path: 'findings',
  component: lazyRouteComponent(() => import('./findings/FindingsScreen.tsx'), 'FindingsScreen'),
})
const control = createRoute({
  getParentRoute: at,
  path: 'control',
  component: lazyRouteComponent(() => import('./control/ControlScreen.tsx'), 'ControlScreen'),
})
const followUp = createRoute({
  getParentRoute: at,
  path: 'follow-up',
  component: lazyRouteComponent(() => import('./follow-up/FollowUpScreen.tsx'), 'FollowUpScreen'),
})
const report = createRoute({
  getParentRoute: at,
  path: 'report',
  component: lazyRouteComponent(() => import('./report/ReportScreen.tsx'), 'ReportScreen'),
})
const record = createRoute({
  getParentRoute: at,
  path: 'record',
  component: lazyRouteComponent(() => import('./record/RecordScreen.tsx'), 'RecordScreen'),
})
const calculators = createRoute({
  getParentRoute: at,
  path: 'calculators/{-$calculator}',
  component: lazyRouteComponent(() => import('./calculators/CalculatorsScreen.tsx'), 'CalculatorsScreen'),
})

const calculatorsAlone = createRoute({
  getParentRoute: () => root,
  path: '/calculators/{-$calculator}',
  component: lazyRouteComponent(() => import('./shell/CalculatorsAlone.tsx'), 'CalculatorsAlone'),
})

const devices = createRoute({
  getParentRoute: () => root,
  path: '/devices',
  component: lazyRouteComponent(() => import('./devices/DevicesScreen.tsx'), 'DevicesScreen'),
})
const join = createRoute({
  getParentRoute: () => root,
  path: '/join',
  component: lazyRouteComponent(() => import('./devices/JoinScreen.tsx'), 'JoinScreen'),
})

/** What a laboratory opens by its link: no shell, no investigation. */
const receipt = createRoute({
  getParentRoute: () => root,
  path: '/receipt',
  component: lazyRouteComponent(() => import('./receipt/ReceiptScreen.tsx'), 'ReceiptScreen'),
})

const gallery = createRoute({
  getParentRoute: () => root,
  path: '/kit',
  component: import.meta.env.DEV
    ? lazyRouteComponent(() => import('./showcase/KitGallery.tsx'), 'KitGallery')
    : NotFound,
})

const drawing = createRoute({
  getParentRoute: () => root,
  path: '/kit/drawing',
  component: import.meta.env.DEV
    ? lazyRouteComponent(() => import('./showcase/DrawingGallery.tsx'), 'DrawingGallery')
    : NotFound,
})

const steps = [
  first,
  brief,
  cases,
  building,
  plan,
  fieldwork,
  custody,
  results,
  findings,
  control,
  followUp,
  report,
  record,
  calculators,
] as const

let openedAt: string | undefined

/** What was opened with a still may have been scrolled in it already: there the screen stays where it is. */
function scrolls({ location }: { readonly location: ParsedLocation }): boolean {
  if (globalThis.rillmarkStill === undefined) return true
  openedAt ??= location.href
  if (openedAt === location.href) return false
  openedAt = ''
  return true
}

export const router = createRouter({
  routeTree: root.addChildren([
    start,
    open,
    investigation.addChildren([...steps]),
    calculatorsAlone,
    devices,
    join,
    receipt,
    gallery,
    drawing,
  ]),
  defaultPreload: 'intent',
  scrollRestoration: scrolls,
  defaultPendingComponent: ScreenPending,
  defaultErrorComponent: ScreenFailed,
})

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router
  }
}
