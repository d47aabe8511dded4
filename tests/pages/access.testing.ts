import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { FRAME_WORDS } from '../../src/web/words.ts'
import { THOROUGH } from '../thorough.testing.ts'

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js')

export const PHONE = {
  viewport: { width: 390, height: 844 },
  isMobile: true,
  hasTouch: true,
} as const
export const LAPTOP = { viewport: { width: 1440, height: 900 } } as const
/** The narrowest there is, a phone, a laptop at 200 %, and one at 100 %. */
export const WIDTHS = [
  ['320 px', { width: 320, height: 640 }],
  ['phone', PHONE.viewport],
  ['200 %', { width: 720, height: 450 }],
  ['laptop', LAPTOP.viewport],
] as const

const DAY = ['light', 'paper'] as const
const NIGHT = ['dark', 'night'] as const
const [PHONE_BY_DAY, LAPTOP_BY_NIGHT] = [
  [PHONE, DAY],
  [LAPTOP, NIGHT],
] as const
let states = 0

/** Turn about a phone by day and a laptop by night; `npm run test:long` looks at all four pairs. */
function looks() {
  states += 1
  if (THOROUGH) {
    return [PHONE_BY_DAY, [PHONE, NIGHT], [LAPTOP, DAY], LAPTOP_BY_NIGHT] as const
  }
  return [states % 2 === 0 ? PHONE_BY_DAY : LAPTOP_BY_NIGHT] as const
}

type Violation = Readonly<{
  id: string
  nodes: readonly Readonly<{ html: string; failureSummary: string }>[]
}>

/** Everything axe finds, its best-practice rules included. */
export async function violations(page: Page): Promise<readonly string[]> {
  const isThere = await page.evaluate(() => 'axe' in globalThis)
  if (!isThere) await page.addScriptTag({ path: AXE })
  const found = await page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: {
        run: (
          context: Document,
          options: Readonly<{ resultTypes: readonly string[] }>,
        ) => Promise<{ violations: readonly Violation[] }>
      }
    }
    // what passes is counted and not described
    return (await axe.run(document, { resultTypes: ['violations'] })).violations
  })
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html}: ${failureSummary}`),
  )
}

/** So far the page could be scrolled sideways. */
export function beyondPx(page: Page): Promise<number> {
  return page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  )
}

/** What one presses that is lower than 48 px, or narrower than 24. */
export function lowTargets(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('a, button, select, input, [role=slider]')]
      .filter((element) => !element.classList.contains('skip'))
      .map((element) => ({ element, box: element.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && (box.height < 47.5 || box.width < 24))
      .map(({ element, box }) => `${element.outerHTML.slice(0, 80)} ${box.width}x${box.height}`),
  )
}

/** Nothing scrolls sideways at any width, what one presses is 48 px high, and axe finds nothing. */
export async function expectAccess(page: Page): Promise<void> {
  // a page that broke is in order in itself
  await expect(page.getByRole('heading', { name: FRAME_WORDS.broken }).count()).resolves.toBe(0)
  for (const [name, viewport] of WIDTHS) {
    await page.setViewportSize(viewport)
    // what measures itself, like a film's picture, follows a moment later
    await expect.poll(() => beyondPx(page), { message: name }).toBe(0)
    await expect.poll(() => lowTargets(page), { message: name }).toEqual([])
  }
  for (const [{ viewport }, [colorScheme, scheme]] of looks()) {
    await page.setViewportSize(viewport)
    // the browser has once told a page of the change too late: it is told again until it shows it
    const shown = async (): Promise<string | null> => {
      await page.emulateMedia({ colorScheme: null })
      await page.emulateMedia({ colorScheme })
      return page.locator('html').getAttribute('data-scheme')
    }
    await expect.poll(shown).toBe(scheme)
    expect([viewport.width, scheme, await violations(page)]).toEqual([viewport.width, scheme, []])
  }
}
