/** Every path of the HTTP contract, in one place for the server, the pages and the commands. */
export const PATHS = {
  health: '/api/health',
  shop: '/api/shop',
  demoShop: '/api/shop/demo',
  ownShop: '/api/shop/own',
  firstDose: '/api/first-dose',
  choices: '/api/choices',
  light: '/api/light',
  films: '/api/films',
  openapi: '/api/openapi.json',
} as const

export const filmPath = (film: string): string => `${PATHS.films}/${encodeURIComponent(film)}`
export const filmForecastPath = (film: string): string => `${filmPath(film)}/forecast`
export const tilePath = (
  forecast: string,
  { level, x, y }: Readonly<{ level: number; x: number; y: number }>,
): string => `/api/forecasts/${encodeURIComponent(forecast)}/tiles/${level}/${x}/${y}`
