import { lazy, type ReactNode, Suspense, useEffect, useRef } from 'react'
import type { Asked } from './asked.ts'
import { FirstPage } from './first/FirstPage.tsx'
import { type Door, Frame } from './frame/Frame.tsx'
import { Standing } from './frame/Standing.tsx'
import { Whole } from './frame/Whole.tsx'
import { LightPage } from './light/LightPage.tsx'
import { useMe } from './people/me.tsx'
import { Nowhere } from './rooms/Nowhere.tsx'
import { type Route, routeOf, useWay } from './router.tsx'
import { useShop } from './shop.tsx'
import { FRAME_WORDS, LIGHT_WORDS, ROOM_WORDS, SIGN_WORDS, TESTS_TITLES } from './words.ts'

/** Fetched when one goes there: the first load is for the dose alone. */
const FilmPage = lazy(async () => ({ default: (await import('./film/FilmPage.tsx')).FilmPage }))
const UploadPage = lazy(async () => ({
  default: (await import('./film/UploadPage.tsx')).UploadPage,
}))
const ArtworksPage = lazy(async () => ({
  default: (await import('./films/ArtworksPage.tsx')).ArtworksPage,
}))
const ArtworkPage = lazy(async () => ({
  default: (await import('./films/ArtworkPage.tsx')).ArtworkPage,
}))
const PhotoPage = lazy(async () => ({ default: (await import('./photo/PhotoPage.tsx')).PhotoPage }))
const CheckPage = lazy(async () => ({ default: (await import('./check/CheckPage.tsx')).CheckPage }))
const TestsRooms = lazy(async () => ({
  default: (await import('./tests/TestsRooms.tsx')).TestsRooms,
}))
const TicketsPage = lazy(async () => ({
  default: (await import('./ticket/TicketsPage.tsx')).TicketsPage,
}))
const TicketPage = lazy(async () => ({
  default: (await import('./ticket/TicketPage.tsx')).TicketPage,
}))
const PlacePage = lazy(async () => ({ default: (await import('./place/PlacePage.tsx')).PlacePage }))
const TroublePage = lazy(async () => ({
  default: (await import('./trouble/TroublePage.tsx')).TroublePage,
}))
const CausesPage = lazy(async () => ({
  default: (await import('./trouble/table/TablePage.tsx')).TablePage,
}))
const ShopRoomPage = lazy(async () => ({
  default: (await import('./shopRoom/ShopRoomPage.tsx')).ShopRoomPage,
}))
const DayPage = lazy(async () => ({ default: (await import('./day/DayPage.tsx')).DayPage }))
const ScreensPage = lazy(async () => ({
  default: (await import('./screens/ScreensPage.tsx')).ScreensPage,
}))
const ScreenPage = lazy(async () => ({
  default: (await import('./screens/ScreenPage.tsx')).ScreenPage,
}))
const PeoplePage = lazy(async () => ({
  default: (await import('./people/PeoplePage.tsx')).PeoplePage,
}))
const SignInPage = lazy(async () => ({
  default: (await import('./people/SignInPage.tsx')).SignInPage,
}))
const BenchPage = lazy(async () => ({ default: (await import('./bench/BenchPage.tsx')).BenchPage }))
const StepsPage = lazy(async () => ({ default: (await import('./bench/StepsPage.tsx')).StepsPage }))
const SignsPage = lazy(async () => ({ default: (await import('./signs/SignsPage.tsx')).SignsPage }))

/** The page that stands at this address, in its frame. */
export function App(): ReactNode {
  const { path } = useWay()
  const route = routeOf(path)
  useArrival(path, TITLES[route.page])
  const { asked, askAgain } = useShop()
  const shop = asked.answer
  const { me } = useMe()
  const mustSignIn = me?.role === 'nobody'
  if (route.page === 'bench' || route.page === 'run') {
    return (
      <Whole key={path} atBench>
        <Suspense>
          {mustSignIn ? (
            <SignInAtBench />
          ) : (
            <BenchPage run={route.page === 'run' ? route.run : null} />
          )}
        </Suspense>
      </Whole>
    )
  }
  const isFirst = shop?.state === 'none' && !SHOPLESS.has(route.page)
  const door = doorOf(route)
  const isAtFirst = isFirst && (door === 'light' || door === 'shop')
  return (
    <Frame door={isAtFirst ? 'shop' : door}>
      {isFirst || (
        <div className="arriving">
          {shop === null && <h1>{arriving(asked)}</h1>}
          <Standing asked={asked} working={FRAME_WORDS.fetching} onAgain={askAgain} />
        </div>
      )}
      <Whole key={isFirst ? 'first' : path}>
        <Suspense fallback={<h1>{TITLES[route.page]}</h1>}>
          {isFirst ? (
            <FirstPage door={isAtFirst ? null : door} />
          ) : mustSignIn && route.page !== 'signs' ? (
            <SignInPage />
          ) : (
            shop !== null && <Page route={route} />
          )}
        </Suspense>
      </Whole>
    </Frame>
  )
}

/** What stands there before there is a shop. */
const SHOPLESS: ReadonlySet<Route['page']> = new Set(['signs', 'nowhere'])

/** Before anything is uncovered: the bench has no frame, and asks who comes all the same. */
function SignInAtBench(): ReactNode {
  return (
    <main id="page" tabIndex={-1}>
      <SignInPage />
    </main>
  )
}

/** The title while there is no shop to show; none while it may still come at once. */
function arriving({ now, slow }: Asked<unknown>): string | null {
  switch (now) {
    case 'no connection':
      return FRAME_WORDS.noConnectionTitle
    case 'refused':
      return FRAME_WORDS.refusedTitle
    case 'opening':
    case 'working':
      return slow ? FRAME_WORDS.openingTitle : null
    case 'here':
      return null
  }
}

const TITLES: Readonly<Record<Route['page'], string>> = {
  light: LIGHT_WORDS.title,
  tickets: FRAME_WORDS.ticketsTitle,
  ticket: FRAME_WORDS.ticketTitle,
  day: ROOM_WORDS.day.title,
  ...TESTS_TITLES,
  shop: ROOM_WORDS.shop.title,
  screens: FRAME_WORDS.screensTitle,
  screen: FRAME_WORDS.screenTitle,
  people: FRAME_WORDS.peopleTitle,
  signIn: FRAME_WORDS.signInTitle,
  trouble: FRAME_WORDS.troubleTitle,
  causes: FRAME_WORDS.causesTitle,
  film: FRAME_WORDS.filmTitle,
  upload: FRAME_WORDS.filmTitle,
  films: FRAME_WORDS.filmsTitle,
  artwork: FRAME_WORDS.filmsTitle,
  photo: FRAME_WORDS.photoTitle,
  check: FRAME_WORDS.checkTitle,
  place: FRAME_WORDS.placeTitle,
  bench: FRAME_WORDS.benchTitle,
  run: FRAME_WORDS.benchTitle,
  steps: FRAME_WORDS.stepsTitle,
  signs: SIGN_WORDS.title,
  nowhere: FRAME_WORDS.noSuchPage,
}

/** Names the page in its tab; who came by a link reads on from the page, not from its head. */
function useArrival(path: string, title: string): void {
  const came = useRef(path)
  useEffect(() => {
    document.title = `${title} · ${FRAME_WORDS.name}`
    if (came.current === path) return
    came.current = path
    document.getElementById('page')?.focus({ preventScroll: true })
  }, [path, title])
}

function Page({ route }: Readonly<{ route: Route }>): ReactNode {
  switch (route.page) {
    case 'light':
      return <LightPage />
    case 'tickets':
      return <TicketsPage />
    case 'ticket':
      return <TicketPage key={route.ticket} ticket={route.ticket} />
    case 'day':
      return <DayPage />
    case 'trouble':
      return <TroublePage />
    case 'causes':
      return <CausesPage />
    case 'shop':
      return <ShopRoomPage />
    case 'tests':
    case 'strip':
    case 'read':
    case 'readings':
    case 'lamp':
    case 'evenness':
    case 'notes':
      return <TestsRooms room={route.page} />
    case 'film':
      return <FilmPage film={route.film} />
    case 'upload':
      return <UploadPage />
    case 'films':
      return <ArtworksPage />
    case 'artwork':
      return <ArtworkPage key={route.artwork} artwork={route.artwork} />
    case 'photo':
      return <PhotoPage />
    case 'check':
      return <CheckPage />
    case 'place':
      return <PlacePage />
    case 'screens':
      return <ScreensPage />
    case 'screen':
      return <ScreenPage key={route.tag} tag={route.tag} />
    case 'people':
      return <PeoplePage />
    case 'signIn':
      return <SignInPage />
    case 'steps':
      return <StepsPage />
    case 'signs':
      return <SignsPage />
    case 'bench':
    case 'run': // in the dark, without a frame
    case 'nowhere':
      return <Nowhere />
  }
}

function doorOf({ page }: Route): Door | null {
  switch (page) {
    case 'film':
    case 'upload':
    case 'films':
    case 'artwork':
    case 'photo':
    case 'check':
    case 'place':
    case 'ticket':
      return 'tickets'
    case 'screens':
    case 'screen':
    case 'people':
      return 'shop'
    case 'strip':
    case 'read':
    case 'readings':
    case 'lamp':
    case 'evenness':
    case 'notes':
      return 'tests'
    case 'trouble':
    case 'causes':
    case 'steps':
      return 'shop'
    case 'bench':
    case 'run':
    case 'signIn':
    case 'signs':
    case 'nowhere':
      return null
    default:
      return page
  }
}
