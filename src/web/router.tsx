import {
  createContext,
  type MouseEvent,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useState,
} from 'react'

/** Where one is: a page and what it is about. */
export type Route =
  | Readonly<{ page: keyof typeof ROUTES | 'nowhere' }>
  | Readonly<{ page: 'film'; film: string }>
  | Readonly<{ page: 'artwork'; artwork: string }>
  | Readonly<{ page: 'ticket'; ticket: string }>
  | Readonly<{ page: 'screen'; tag: string }>
  | Readonly<{ page: 'run'; run: string }>

export const ROUTES = {
  light: '/',
  tickets: '/tickets',
  day: '/day',
  tests: '/tests',
  strip: '/tests/strip',
  read: '/tests/read',
  readings: '/tests/readings',
  lamp: '/tests/lamp',
  evenness: '/tests/evenness',
  notes: '/tests/notes',
  shop: '/shop',
  screens: '/screens',
  people: '/people',
  signIn: '/people/sign-in',
  upload: '/film',
  films: '/films',
  photo: '/photo',
  place: '/place',
  check: '/check',
  trouble: '/trouble',
  causes: '/trouble/causes',
  bench: '/bench',
  steps: '/steps',
  signs: '/signs',
} as const

export const filmRoute = (film: string): string => `/film/${encodeURIComponent(film)}`
export const artworkRoute = (artwork: string): string => `/films/${encodeURIComponent(artwork)}`
export const ticketRoute = (ticket: string): string => `/tickets/${encodeURIComponent(ticket)}`

export const screenRoute = (tag: string): string => `/screens/${encodeURIComponent(tag)}`

export const benchRoute = (run: string): string => `${ROUTES.bench}/${encodeURIComponent(run)}`

/** The bench stands in the dark: its pages have no frame and colours of their own. */
export const isBench = (path: string): boolean => /^\/bench(\/|$)/.test(path)

/** The page that stands at a path. */
export function routeOf(path: string): Route {
  const plain = path.replace(/\/+$/, '') || '/'
  const [, kind, part] = /^\/(films|film|tickets|bench|screens)\/([^/]+)$/.exec(plain) ?? []
  if (part !== undefined) {
    const id = decoded(part)
    if (id === null) return { page: 'nowhere' }
    if (kind === 'films') return { page: 'artwork', artwork: id }
    if (kind === 'bench') return { page: 'run', run: id }
    if (kind === 'screens') return { page: 'screen', tag: id }
    return kind === 'film' ? { page: 'film', film: id } : { page: 'ticket', ticket: id }
  }
  for (const [page, place] of Object.entries(ROUTES) as [keyof typeof ROUTES, string][]) {
    if (place === plain) return { page }
  }
  return { page: 'nowhere' }
}

function decoded(part: string): string | null {
  try {
    return decodeURIComponent(part)
  } catch {
    return null
  }
}

type Way = Readonly<{ path: string; search: string; go: (to: string, how?: 'replace') => void }>

const WayContext = createContext<Way | null>(null)

/** Holds the path and follows the browser's own back and forward. */
export function Router({ children }: Readonly<{ children: ReactNode }>): ReactNode {
  const [place, setPlace] = useState(here)
  useEffect(() => {
    const follow = (): void => setPlace(here())
    addEventListener('popstate', follow)
    return () => removeEventListener('popstate', follow)
  }, [])
  const go = useCallback((to: string, how?: 'replace') => {
    const before = location.pathname
    if (how === 'replace') history.replaceState(null, '', to)
    else history.pushState(null, '', to)
    setPlace(here())
    if (location.pathname !== before) scrollTo(0, 0)
  }, [])
  const way = useMemo(() => ({ ...place, go }), [place, go])
  return <WayContext value={way}>{children}</WayContext>
}

function here(): Readonly<{ path: string; search: string }> {
  return { path: location.pathname, search: location.search }
}

/** @throws RangeError outside of a Router */
export function useWay(): Way {
  const way = useContext(WayContext)
  if (way === null) throw new RangeError('useWay: expected a Router around the page')
  return way
}

export type LinkProps = Readonly<{
  to: string
  children: ReactNode
  className?: string
  current?: boolean
}>

/** A link within the pages; everything a browser does with links still works. */
export function Link({ to, children, className, current = false }: LinkProps): ReactNode {
  const { go } = useWay()
  const follow = (event: MouseEvent): void => {
    if (event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey)
      return
    event.preventDefault()
    go(to)
  }
  return (
    <a href={to} className={className} aria-current={current ? 'page' : undefined} onClick={follow}>
      {children}
    </a>
  )
}
