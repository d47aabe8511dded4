// Serves the pages where there is no connection: an exposure that was begun goes on, also after the
// browser was closed. What the shop answers is never kept here, so nothing stale is ever shown.
const SHELL = 'yellowroom-shell'
const LIST = '/shell.json'
const PAGE = '/'
const LASTING = '/assets/'

/** Takes in what is new of the pages and lets go what is old; all of it or nothing new. */
async function refreshed() {
  const shell = await caches.open(SHELL)
  const fresh = { cache: 'no-cache' }
  const list = await (await fetch(LIST, fresh)).json()
  const page = await fetch(PAGE, fresh)
  if (!page.ok) return
  const known = (await shell.keys()).map(({ url }) => new URL(url).pathname)
  // a name under /assets/ holds its content's hash: what is there is right
  const wanted = list.filter((path) => !(path.startsWith(LASTING) && known.includes(path)))
  await shell.addAll(wanted)
  await shell.put(PAGE, page)
  const old = known.filter((path) => path !== PAGE && !list.includes(path))
  await Promise.all(old.map((path) => shell.delete(path)))
}

async function pageFor(event) {
  try {
    const page = await fetch(event.request)
    if (page.ok) event.waitUntil(refreshed().catch(() => undefined)) // the next time, then
    return page
  } catch (cause) {
    const kept = await caches.match(PAGE)
    if (kept === undefined) throw cause
    return kept
  }
}

async function fileFor(request) {
  const isLasting = new URL(request.url).pathname.startsWith(LASTING)
  const kept = await caches.match(request)
  if (isLasting && kept !== undefined) return kept
  return fetch(request).catch((cause) => {
    if (kept === undefined) throw cause
    return kept
  })
}

self.addEventListener('install', (event) => {
  event.waitUntil(refreshed().then(() => self.skipWaiting()))
})
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()))
self.addEventListener('fetch', (event) => {
  const { request } = event
  const { origin, pathname } = new URL(request.url)
  if (request.method !== 'GET' || origin !== self.location.origin) return
  if (pathname.startsWith('/api/')) return
  event.respondWith(request.mode === 'navigate' ? pageFor(event) : fileFor(request))
})
