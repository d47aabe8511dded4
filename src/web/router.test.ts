import { expect, test } from 'vitest'
import { filmRoute, routeOf, ticketRoute } from './router.tsx'

test.each([
  ['/', 'light'],
  ['/tickets', 'tickets'],
  ['/tickets/', 'tickets'],
  ['/day', 'day'],
  ['/tests', 'tests'],
  ['/shop', 'shop'],
  ['/film', 'upload'],
  ['/signs', 'signs'],
  ['/nothing', 'nowhere'],
  ['/film/a/b', 'nowhere'],
  ['/film/%E0%A4%A', 'nowhere'],
])('%s is %s', (path, page) => {
  expect(routeOf(path).page).toBe(page)
})

test('a film and a ticket keep their names through the address', () => {
  expect(routeOf(filmRoute('a b/ü'))).toEqual({ page: 'film', film: 'a b/ü' })
  expect(routeOf(ticketRoute('a b/ü'))).toEqual({ page: 'ticket', ticket: 'a b/ü' })
})
