import { latin, pngClaiming, svgFile } from './artworkFiles.testing.ts'
import type { BadArtwork } from './badPictures.testing.ts'

const many = (count: number, text: string): string => text.repeat(count)

/** Each group shows the next one ten times: 10^8 squares. */
const useBomb = Array.from({ length: 8 }, (_, at) => {
  const next = at === 7 ? '<path d="M0 0h1v1z"/>' : many(10, `<use xlink:href="#g${at + 1}"/>`)
  return `<g id="g${at}">${next}</g>`
}).join('')

export const BAD_DRAWINGS: readonly BadArtwork[] = [
  [
    'sizeless.svg',
    () => latin('<svg xmlns="http://www.w3.org/2000/svg"><path/></svg>'),
    'neither its size',
  ],
  [
    'nothing-by-nothing.svg',
    () => latin('<svg xmlns="http://www.w3.org/2000/svg" width="0" height="0"/>'),
    'neither its size',
  ],
  [
    'below-nothing.svg',
    () => latin('<svg xmlns="http://www.w3.org/2000/svg" width="-3" height="-2"/>'),
    'neither its size',
  ],
  [
    '100000-wide.svg',
    () => svgFile('<path d="M0 0h1v1z"/>', 'width="100000" height="100"'),
    '1 to 5000 mm',
  ],
  [
    'hair-thin.svg',
    () => latin('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1e30 1e-30"/>'),
    'mm',
  ],
  // what a search that begins anew at each sign would be at for hours
  ['roots-that-never-end.svg', () => latin(many(400_000, '<svg ')), 'no root element'],
  [
    'links-that-never-end.svg',
    () => svgFile(`<style>${many(200_000, '<a ')}</style>`),
    'no drawing',
  ],
  [
    'pictures-that-never-end.svg',
    () => svgFile(`<style>${many(200_000, 'data:image/png ')}</style></style>`),
    'no drawing',
  ],
  [
    'an-address-of-gaps.svg',
    () => svgFile(`<style>url(${many(1_000_000, ' ')})</style></style>`),
    'no drawing',
  ],
  ['endless.svg', () => svgFile('', 'width="1e300mm" height="1e300mm"'), '5000 mm'],
  [
    'torn.svg',
    () => latin('<svg xmlns="http://www.w3.org/2000/svg" width="3" height="3"><path'),
    'no drawing',
  ],
  ['crossed.svg', () => svgFile('<g><path></g></path>'), 'no drawing'],
  [
    'sixteen.svg',
    () => Buffer.from(`\uFEFF${Buffer.from(svgFile('')).toString()}`, 'utf16le'),
    'is no artwork',
  ],
  [
    'not-utf8.svg',
    () => Buffer.concat([svgFile('').subarray(0, -6), latin('\xff\xfe</svg>')]),
    'UTF-8',
  ],
  [
    'entity.svg',
    () => latin(`<!DOCTYPE svg [<!ENTITY e "x">]>${Buffer.from(svgFile('')).toString()}`),
    'entities',
  ],
  [
    'entity-of-a-file.svg',
    () =>
      latin(
        `<!DOCTYPE svg [<!ENTITY e SYSTEM "file:///etc/hostname">]>${Buffer.from(svgFile('<text>&e;</text>')).toString()}`,
      ),
    'entities',
  ],
  [
    'other-file.svg',
    () => svgFile('<image width="3" height="3" xlink:href="/etc/hostname.png"/>'),
    'other files',
  ],
  ['used-file.svg', () => svgFile('<use href="other.svg#part"/>'), 'other files'],
  [
    'network.svg',
    () => svgFile('<image width="3" height="3" href="http://127.0.0.1/a.png"/>'),
    'other files',
  ],
  ['style-import.svg', () => svgFile('<style>@import "a.css";</style>'), 'other files'],
  ['fill-elsewhere.svg', () => svgFile('<path d="M0 0h1v1z" fill="url(a.svg#b)"/>'), 'other files'],
  [
    'filter-elsewhere.svg',
    () =>
      svgFile(
        '<filter id="f"><feImage href="file:///etc/hostname"/></filter><path filter="url(#f)" d="M0 0h1v1z"/>',
      ),
    'other files',
  ],
  [
    'hidden-letters.svg',
    () => svgFile('<image width="3" height="3" href="&#47;etc&#47;hostname.png"/>'),
    'other files',
  ],
  [
    'stylesheet.svg',
    () =>
      latin(
        `<?xml-stylesheet href="http://127.0.0.1:9/a.css"?>${Buffer.from(svgFile('<path d="M0 0h1v1z"/>')).toString()}`,
      ),
    'other files',
  ],
  [
    'large-picture-inside.svg',
    () =>
      svgFile(
        `<image width="3" height="3" href="data:image/png;base64,${Buffer.from(pngClaiming([30_000, 30_000])).toString('base64')}"/>`,
      ),
    'million pixels',
  ],
  ['use-bomb.svg', () => svgFile(`${useBomb}<use xlink:href="#g0"/>`), 'no drawing'],
  [
    'deep.svg',
    () => svgFile(`${many(20_000, '<g>')}<path d="M0 0h1v1z"/>${many(20_000, '</g>')}`),
    'no drawing',
  ],
]

/** Odd, and drawn all the same: nothing runs, nothing is fetched, nothing goes on for ever. */
export const ODD_DRAWINGS: readonly BadArtwork[] = [
  [
    'style-escape.svg',
    () => svgFile('<style>@\\69mport "a.css";</style><path d="M0 0h1v1z"/>'),
    '',
  ],
  [
    'script.svg',
    () => svgFile('<script>fetch("http://127.0.0.1:9")</script><path d="M0 0h1v1z"/>'),
    '',
  ],
  ['use-itself.svg', () => svgFile('<g id="a"><use href="#a"/><path d="M0 0h1v1z"/></g>'), ''],
  [
    'wide-blur.svg',
    () =>
      svgFile(
        '<filter id="f" x="-1e6" y="-1e6" width="1e9" height="1e9"><feGaussianBlur stdDeviation="1e8"/></filter><path filter="url(#f)" d="M0 0h1v1z"/>',
      ),
    '',
  ],
  [
    'fine-dashes.svg',
    () => svgFile('<path stroke="red" stroke-dasharray="0.000001" d="M0 5h30"/>'),
    '',
  ],
]
