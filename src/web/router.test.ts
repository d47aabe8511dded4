import { expect, test } from 'vitest'
import { filmRoute, routeOf } from './router.tsx'

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

test('a film keeps its name through the address', () => {
  expect(routeOf(filmRoute('a b/ü'))).toEqual({ page: 'film', film: 'a b/ü' })
})
