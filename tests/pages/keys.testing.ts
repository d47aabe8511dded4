import type { Page } from 'playwright-core'

/** Tab by tab, what is in focus and whether its ring shows. */
export async function tabbed(
  page: Page,
  times: number,
): Promise<readonly Readonly<{ name: string; ring: boolean }>[]> {
  const steps: { name: string; ring: boolean }[] = []
  for (let step = 0; step < times; step++) {
    await page.keyboard.press('Tab')
    steps.push(
      await page.evaluate(() => {
        const element = document.activeElement as HTMLElement
        const shown = element.closest('.blank, .grade, .notes-file') ?? element
        const { outlineStyle, outlineWidth } = getComputedStyle(shown)
        const name = element.getAttribute('aria-label') ?? element.textContent ?? ''
        return { name, ring: outlineStyle === 'solid' && outlineWidth === '3px' }
      }),
    )
  }
  return steps
}
