// Before the first paint: the scheme that was chosen here, or the device's.
;(() => {
  const root = document.documentElement
  let chosen = null
  try {
    chosen = localStorage.getItem('yellowroom.scheme')
  } catch {
    // kept from us: the device decides
  }
  const dark = matchMedia('(prefers-color-scheme: dark)').matches
  const bench = /^\/bench(\/|$)/.test(location.pathname)
  const scheme = bench ? 'bench' : chosen === 'paper' || chosen === 'night' ? chosen : dark ? 'night' : 'paper'
  root.dataset.scheme = scheme
  if (bench) {
    root.dataset.light = 'red'
    root.style.background = 'black' // before any sheet of styles is here
  }
})()
