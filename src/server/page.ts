import { html } from 'hono/html'
import type { HtmlEscapedString } from 'hono/utils/html'
import { PICTURE } from './files.ts'
import type { ShownCommand } from './shown.ts'

type Html = HtmlEscapedString | Promise<HtmlEscapedString>

/** The picture's sides; null while there is none. */
export type Picture = Readonly<{ widthPx: number; heightPx: number }> | null

const PICTURE_SAYS =
  'A forecast made by Yellowroom from a hand-made film: full black where the stencil opens, red ' +
  'threads where it is in doubt, an outline where a mark stays shut, and a numbered ring on the ' +
  'weakest mark.'

/** A frame with yellow mesh, in the page's own ink. */
const MARK = html`<svg
  class="mark"
  viewBox="0 0 32 32"
  fill="none"
  stroke="currentColor"
  stroke-width="2"
  aria-hidden="true"
>
  <rect class="wood" x="1.5" y="1.5" width="29" height="29" />
  <path d="M1.5 1.5 8.5 8.5M30.5 1.5 23.5 8.5M1.5 30.5 8.5 23.5M30.5 30.5 23.5 23.5" />
  <rect class="mesh" x="8.5" y="8.5" width="15" height="15" />
</svg>`

/** The one page of this version: what works, and how to use it. */
export function firstPage(
  commands: readonly ShownCommand[],
  { picture }: Readonly<{ picture: Picture }>,
): Html {
  return sheet(
    'Yellowroom: what works today',
    html`<main>
      <section class="lead">
        <div class="words">
          <h1>Screens that are right the first time</h1>
          <p class="job">
            Yellowroom is for shared screen-printing workshops. Give it a film, hand-made or printed,
            and the facts of one exposure. It forecasts the stencil before the lamp is lit: which
            marks will open, which stay shut, which ground will not hold. So it finds the dose for
            this film on this screen, and says how much room there is.
          </p>
          <p class="caution">${caution()}</p>
        </div>
        ${picture === null ? '' : pictureFrame(picture)}
      </section>
      <section>
        <h2>What works today</h2>
        <p>
          The forecast, the dose and their helpers work on the command line. Open a terminal in
          Yellowroom’s folder and type a line like the ones below. “help” and a command’s name shows
          all it takes; “help glossary” explains the words.
        </p>
        <ul class="commands">
          ${commands.map(commandEntry)}
        </ul>
      </section>
      <section>
        <h2>What does not work yet</h2>
        <p>
          The pages for light, films, tickets, the day, tests and the shop are not made yet, and
          neither are reading a photo of a film, making films from artwork, placing films, and
          keeping a shop’s records.
        </p>
      </section>
    </main>`,
  )
}

/** Any address that is not ours. */
export function missingPage(): Html {
  return sheet(
    'Yellowroom: no such page',
    html`<main>
      <section>
        <h1>There is no such page</h1>
        <p>This address leads nowhere. <a href="/">What works today</a> is on the first page.</p>
      </section>
    </main>`,
  )
}

function caution(): string {
  return (
    'Ultraviolet light, chemicals, pressure water and heavy lids can hurt: equipment manuals, ' +
    'safety data sheets and your room’s rules come first.'
  )
}

function pictureFrame({ widthPx, heightPx }: NonNullable<Picture>): Html {
  return html`<figure class="frame">
    <div class="mitre">
      <img src="${PICTURE}" width="${widthPx}" height="${heightPx}" alt="${PICTURE_SAYS}" />
    </div>
    <figcaption>
      A film as the stencil will be: black opens, threads are in doubt, outlines stay shut. Made by
      “forecast” from an invented drawing.
    </figcaption>
  </figure>`
}

function commandEntry({ name, summary, line, prints }: ShownCommand): Html {
  return html`<li>
    <h3>${name}</h3>
    <p>${summary}</p>
    <pre tabindex="0" aria-label="Example of ${name}"><code>
      <kbd>${line.split(' ').map(word)}</kbd>
      <samp>${prints.split('\n').map(row)}</samp>
    </code></pre>
  </li>`
}

/** Typed text breaks between words, never inside an option. */
function word(text: string): Html {
  return html`<span>${text}</span> `
}

function row(text: string): Html {
  return html`<span>${text}</span>`
}

function sheet(title: string, body: Html): Html {
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <title>${title}</title>
        <link rel="icon" href="/mark.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/tokens.css" />
        <link rel="stylesheet" href="/page.css" />
      </head>
      <body>
        <header>
          <a class="name" href="/">${MARK}Yellowroom</a>
        </header>
        ${body}
      </body>
    </html>`
}
