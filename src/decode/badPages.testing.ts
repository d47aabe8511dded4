import { latin, pdfFile, pdfPage, pdfStream } from './artworkFiles.testing.ts'
import type { BadArtwork } from './badPictures.testing.ts'

const many = (count: number, text: string): string => text.repeat(count)
const half = (bytes: Uint8Array): Uint8Array => bytes.subarray(0, Math.floor(bytes.length / 2))

export const BAD_PAGES: readonly BadArtwork[] = [
  ['head.pdf', () => latin('%PDF-1.7\n'), 'is damaged'],
  ['half.pdf', () => half(pdfPage(many(300, '0 0 10 10 re f\n'))), 'is damaged'],
  [
    'locked.pdf',
    () =>
      pdfPage('0 0 9 9 re f', {
        more: [
          `<< /Filter /Standard /V 1 /R 2 /Length 40 /P -4 /O <${many(32, '41')}> /U <${many(32, '42')}> >>`,
        ],
        trailer: `/Encrypt 5 0 R /ID [<${many(16, '00')}> <${many(16, '00')}>]`,
      }),
    'password',
  ],
  [
    'no-pages.pdf',
    () => pdfFile(['<< /Type /Catalog /Pages 2 0 R >>', '<< /Type /Pages /Kids [] /Count 0 >>']),
    'no page',
  ],
  [
    'pages-in-a-ring.pdf',
    () =>
      pdfFile(['<< /Type /Catalog /Pages 2 0 R >>', '<< /Type /Pages /Kids [2 0 R] /Count 1 >>']),
    'no page',
  ],
  ['no-catalog.pdf', () => pdfFile(['<< /Type /Nothing >>']), 'no page'],
  [
    'nothing-by-nothing.pdf',
    () => pdfPage('0 0 9 9 re f', { page: '/MediaBox [0 0 0 0]' }),
    'a page of no size',
  ],
  [
    'endless-page.pdf',
    () => pdfPage('0 0 9 9 re f', { page: '/MediaBox [0 0 1000000000 1000000000]' }),
    '5000 mm',
  ],
  [
    'forms-tenfold.pdf',
    () =>
      pdfPage('/F Do', {
        resources: '/XObject << /F 5 0 R >>',
        more: Array.from({ length: 10 }, (_, at) =>
          pdfStream(
            at === 9 ? '0 0 9 9 re f' : many(10, '/F Do '),
            `/Type /XObject /Subtype /Form /BBox [0 0 100 80] /Resources << /XObject << /F ${6 + at} 0 R >> >>`,
          ),
        ),
      }),
    'too involved',
  ],
  [
    'pattern-in-itself.pdf',
    () =>
      pdfPage('/Pattern cs /P scn 0 0 90 70 re f', {
        resources: '/Pattern << /P 5 0 R >>',
        more: [
          pdfStream(
            '/Pattern cs /P scn 0 0 9 9 re f',
            '/Type /Pattern /PatternType 1 /PaintType 1 /TilingType 1 /BBox [0 0 10 10] /XStep 0.001 /YStep 0.001 /Resources << /Pattern << /P 5 0 R >> >>',
          ),
        ],
      }),
    'too involved',
  ],
  [
    'indexed-in-itself.pdf',
    () =>
      pdfPage('/S cs 1 scn 0 0 9 9 re f', {
        resources: '/ColorSpace << /S 5 0 R /B 6 0 R >>',
        more: [
          '[/Indexed 5 0 R 1 <000000ffffff>]',
          '[/Separation /black /DeviceGray << /FunctionType 2 /Domain [0 1] /C0 [0] /C1 [1] /N 1 >>]',
        ],
      }),
    'too involved',
  ],
  [
    'large-unit.pdf',
    () => pdfPage('0 0 9 9 re f', { page: '/MediaBox [0 0 100 80] /UserUnit 10000' }),
    'sides are 1 to 5000 mm',
  ],
]

/** Odd, and drawn all the same, with a sentence where something is missing. */
export const ODD_PAGES: readonly BadArtwork[] = [
  ['packed-zeros.pdf', () => pdfPage(pdfStream(new Uint8Array(10e6), '', true)), ''],
  [
    'missing-font.pdf',
    () =>
      pdfPage('BT /T 20 Tf 10 10 Td (words) Tj ET', {
        resources: '/Font << /T << /Type /Font /Subtype /Type1 /BaseFont /Nowhere-Bold >> >>',
      }),
    'does not hold the letters',
  ],
  [
    'table-in-a-ring.pdf',
    () => {
      const b = Buffer.from(pdfPage('0 0 9 9 re f')).toString('latin1')
      const at = b.lastIndexOf('xref\n0')
      return latin(b.replace('/Root 1 0 R', `/Root 1 0 R /Prev ${at}`))
    },
    '',
  ],
  [
    'form-in-itself.pdf',
    () =>
      pdfPage('/F Do', {
        resources: '/XObject << /F 5 0 R >>',
        more: [
          pdfStream(
            '/F Do 0 0 9 9 re f',
            '/Type /XObject /Subtype /Form /BBox [0 0 100 80] /Resources << /XObject << /F 5 0 R >> >>',
          ),
        ],
      }),
    '',
  ],
  [
    'picture-bomb.pdf',
    () =>
      pdfPage('90 0 0 70 0 0 cm /I Do', {
        resources: '/XObject << /I 5 0 R >>',
        more: [
          pdfStream(
            new Uint8Array(1000),
            '/Type /XObject /Subtype /Image /Width 100000 /Height 100000 /BitsPerComponent 8 /ColorSpace /DeviceRGB',
            true,
          ),
        ],
      }),
    '',
  ],
  ['deep.pdf', () => pdfPage(`${many(200_000, '[')}${many(200_000, ']')} 0 0 9 9 re f`), ''],
  ['deep-object.pdf', () => pdfPage('0 0 9 9 re f', { more: [many(100_000, '[')] }), ''],
  [
    'ink-over-itself.pdf',
    () =>
      pdfPage('/S cs 1 scn 0 0 9 9 re f', {
        resources: '/ColorSpace << /S 5 0 R >>',
        more: [
          '[/Separation /black 5 0 R << /FunctionType 2 /Domain [0 1] /C0 [0] /C1 [1] /N 1 >>]',
        ],
      }),
    '',
  ],
  ['no-font.pdf', () => pdfPage('BT /T 20 Tf 10 10 Td (words) Tj ET'), ''],
  ['endless-dash.pdf', () => pdfPage('[0.000001] 0 d 0 40 m 100 40 l S'), ''],
  [
    'other-file.pdf',
    () =>
      pdfPage('90 0 0 70 0 0 cm /I Do', {
        resources: '/XObject << /I 5 0 R >>',
        more: [
          pdfStream(
            '',
            '/Type /XObject /Subtype /Image /Width 1 /Height 1 /BitsPerComponent 8 /ColorSpace /DeviceGray /F (/etc/hostname)',
          ),
        ],
      }),
    '',
  ],
  [
    'function-loop.pdf',
    () =>
      pdfPage('/S cs 1 scn 0 0 90 70 re f', {
        resources: '/ColorSpace << /S [/Separation /x /DeviceGray 5 0 R] >>',
        more: [
          '<< /FunctionType 3 /Domain [0 1] /Functions [5 0 R 5 0 R] /Bounds [0.5] /Encode [0 1 0 1] >>',
        ],
      }),
    '',
  ],
]
