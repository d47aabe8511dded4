import { existsSync, mkdirSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Browser, chromium } from 'playwright-core'

/** Our own arguments: the list that comes with the package turns web security off. */
const ARGS = [
  '--headless=new',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-dev-shm-usage',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-default-apps',
  '--no-first-run',
  '--no-zygote',
  '--hide-scrollbars',
  '--font-render-hinting=none',
]

/**
 * A Chromium from the test packages, or the one at CHROMIUM_PATH. Its fonts are looked for where
 * the package unpacks them; without any font a text field ends the browser.
 */
export async function openBrowser(): Promise<Browser> {
  const executablePath = process.env['CHROMIUM_PATH'] ?? (await unpacked())
  return chromium.launch({ executablePath, args: ARGS, headless: true })
}

async function unpacked(): Promise<string> {
  process.env['AWS_EXECUTION_ENV'] ??= 'AWS_Lambda_nodejs20.x' // unpacks the shared libraries as well
  const { default: packed } = await import('@sparticuz/chromium')
  const path = await packed.executablePath()
  process.env['FONTCONFIG_PATH'] = fontFolder()
  return path
}

/** A font configuration of our own that names the folder the fonts lie in. */
function fontFolder(): string {
  const folder = join(tmpdir(), 'yellowroom-fonts')
  const file = join(folder, 'fonts.conf')
  if (!existsSync(file)) {
    mkdirSync(folder, { recursive: true })
    const places = [join(tmpdir(), 'fonts'), '/tmp/fonts', '/usr/share/fonts']
    writeFileSync(
      file,
      `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig>${places
        .map((place) => `<dir>${place}</dir>`)
        .join('')}<cachedir>${join(folder, 'cache')}</cachedir></fontconfig>`,
    )
  }
  return folder
}
