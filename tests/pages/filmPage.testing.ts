import type { Page } from 'playwright-core'
import { expect } from 'vitest'

/** The picture once it is painted. */
export const PAINTED = '.film-stage canvas[width]'

export type Inks = Readonly<{ ink: number; cut: number; soft: number; sheet: number }>

/** Pixels of the canvas in each ink, by the tokens of the paper scheme. */
function inks(page: Page): Promise<Inks> {
  return page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('.film-stage canvas')
    const brush = canvas?.getContext('2d')
    if (!canvas || !brush) throw new Error('no canvas')
    const { data } = brush.getImageData(0, 0, canvas.width, canvas.height)
    const count = { ink: 0, cut: 0, soft: 0, sheet: 0 }
    for (let at = 0; at < data.length; at += 4) {
      const [red, green, alpha] = [data[at] ?? 0, data[at + 1] ?? 0, data[at + 3]]
      if (alpha === 0) continue
      if (red > 240 && green > 240) count.sheet += 1
      else if (red < 60 && green < 60) count.ink += 1
      else if (red - green > 40) count.cut += 1
      else count.soft += 1
    }
    return count
  })
}

/** The same, once no further tile changes it. */
export async function settledInks(page: Page): Promise<Inks> {
  await page.waitForSelector(PAINTED)
  let before = ''
  for (;;) {
    await page.waitForTimeout(200)
    const now = await inks(page)
    if (JSON.stringify(now) === before) return now
    before = JSON.stringify(now)
  }
}

/** How many of the canvas's pixels are others than they were. */
export async function pixelsChanged(page: Page, act: () => Promise<unknown>): Promise<number> {
  await page.evaluate((selector) => {
    const canvas = document.querySelector<HTMLCanvasElement>(selector)
    const { width = 0, height = 0 } = canvas ?? {}
    const data = canvas?.getContext('2d')?.getImageData(0, 0, width, height).data
    Object.assign(globalThis, { before: new Uint32Array(data?.buffer ?? new ArrayBuffer(0)) })
  }, PAINTED)
  await act()
  await settledInks(page)
  return page.evaluate((selector) => {
    const canvas = document.querySelector<HTMLCanvasElement>(selector)
    const { width = 0, height = 0 } = canvas ?? {}
    const data = canvas?.getContext('2d')?.getImageData(0, 0, width, height).data
    const now = new Uint32Array(data?.buffer ?? new ArrayBuffer(0))
    const { before } = globalThis as unknown as { before: Uint32Array }
    if (now.length !== before.length) throw new Error('the canvas has another size')
    return now.reduce((count, pixel, at) => count + (pixel === before[at] ? 0 : 1), 0)
  }, PAINTED)
}

export async function pressDose(page: Page, key: string): Promise<void> {
  await page.locator('[role=slider]').focus()
  await page.keyboard.press(key)
}

/** Drags the handle of the dose along the cloth. */
export async function dragDose(page: Page, toShare: number): Promise<void> {
  const box = await page.locator('[role=slider]').boundingBox()
  expect(box).not.toBeNull()
  const { x, y, width, height } = box ?? { x: 0, y: 0, width: 0, height: 0 }
  await page.mouse.move(x + width / 2, y + height / 2)
  await page.mouse.down()
  for (const part of [0.25, 0.5, 0.75, 1]) {
    await page.mouse.move(x + width * (0.5 + part * (toShare - 0.5)), y + height / 2)
  }
  await page.mouse.up()
}
