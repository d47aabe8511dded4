import type { ReactNode } from 'react'
import { FirstPage } from './first/FirstPage.tsx'
import { type Door, Frame } from './frame/Frame.tsx'
import { Standing } from './frame/Standing.tsx'
import { LightPage } from './light/LightPage.tsx'
import { Nowhere, NotBuilt } from './rooms/NotBuilt.tsx'
import { type Route, routeOf, useWay } from './router.tsx'
import { useShop } from './shop.tsx'
import { FRAME_WORDS } from './words.ts'

/** The page that stands at this address, in its frame. */
export function App(): ReactNode {
  const route = routeOf(useWay().path)
  const { asked, askAgain } = useShop()
  const shop = asked.answer
  const isFirst = shop?.state === 'none' && (route.page === 'light' || route.page === 'shop')
  return (
    <Frame door={isFirst ? 'shop' : doorOf(route)}>
      {isFirst || (
        <Standing asked={asked} working={FRAME_WORDS.fetching} onAgain={askAgain} />
      )}
      {isFirst ? <FirstPage /> : shop !== null && <Page route={route} />}
    </Frame>
  )
}

function Page({ route }: Readonly<{ route: Route }>): ReactNode {
  switch (route.page) {
    case 'light':
      return <LightPage />
    case 'tickets':
    case 'day':
    case 'tests':
    case 'shop':
      return <NotBuilt room={route.page} />
    case 'film':
    case 'upload':
      return <NotBuilt room="film" />
    case 'nowhere':
      return <Nowhere />
  }
}

function doorOf({ page }: Route): Door | null {
  switch (page) {
    case 'film':
    case 'upload':
      return 'tickets'
    case 'nowhere':
      return null
    default:
      return page
  }
}
