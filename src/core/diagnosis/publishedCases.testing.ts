/** A failure as a published guide tells it: what is seen and known, and what the guide says it was. */
export type PublishedCase = Readonly<{
  /** In our words; what the guide says of it. */
  says: string
  /** Signs that were there. */
  yes: readonly string[]
  /** Signs that the guide says were not there. */
  no?: readonly string[]
  cause: string
  /** Address of the guide, as read. */
  source: string
}>

/**
 * Thirty cases from published trouble-shooting guides, lessons and notes of printers, written down
 * before there was a table of causes. A sign is taken down only where the source tells it, a cause
 * only where the source names it. Names of products are left out.
 *
 * @source trouble-guides
 */
export const PUBLISHED_CASES: readonly PublishedCase[] = [
  {
    says: 'Dried above 40 °C: washout is slow and hard, detail is lost.',
    yes: ['slow to open', 'thin marks shut', 'dried hot'],
    cause: 'hardened by heat',
    source: 'https://www.macdermidconnect.com/new-blog/2018/12/7/drying-plus-emulsions',
  },
  {
    says: 'Dried far too hot: the coat does not dissolve at all.',
    yes: ['nothing opens', 'dried hot'],
    cause: 'hardened by heat',
    source:
      'https://www.macdermidconnect.com/stencil-making-process/3-preparing-plus-emulsion-manual-coating',
  },
  {
    says: 'Left in the warmth over 30 °C, the sensitizer makes the coat insoluble before its time.',
    yes: ['slow to open', 'dried hot'],
    cause: 'hardened by heat',
    source: 'https://printing.org/detail/resource/Drying-Blockout-Retouching',
  },
  {
    says: 'Exposed damp though with its full dose: soft, and gone soon on the press.',
    yes: ['breaks down in print', 'soft ground', 'dried short'],
    no: ['under the dose'],
    cause: 'not dry',
    source: 'https://www.macdermidconnect.com/new-blog/2018/12/7/drying-plus-emulsions',
  },
  {
    says: 'Poor drying: soft and easily hurt, breaks down early, stains the fabric.',
    yes: ['soft ground', 'breaks down in print', 'ghost in the fabric'],
    cause: 'not dry',
    source:
      'https://www.macdermidconnect.com/stencil-making-process/5-drying-stencil-before-exposurenbsp',
  },
  {
    says: 'Humid summer: pinholes, breakdown, hard to reclaim, a ghost left after.',
    yes: [
      'pinholes',
      'breaks down in print',
      'stencil stays on',
      'ghost in the fabric',
      'damp air',
    ],
    cause: 'not dry',
    source: 'https://www.insidescreenprinting.com/summer-humidity-and-your-screens/',
  },
  {
    says: 'Washout shares the room: soft or tacky coat even after long drying, early breakdown.',
    yes: ['soft ground', 'breaks down in print', 'damp air'],
    cause: 'not dry',
    source: 'https://jonespt.com.au/humidity-ruins-stencils-heres-how-to-stop-it',
  },
  {
    says: 'Exposed before it was dry: looks right, detail is there, breaks down early on the press.',
    yes: ['breaks down in print', 'dried short'],
    no: ['thin marks shut'],
    cause: 'not dry',
    source: 'https://chromaline.com/humidity-its-a-constant-battle/',
  },
  {
    says: 'Light did not get through the coat: the stencil washes off whole.',
    yes: ['ground washes off'],
    cause: 'too little light',
    source:
      'http://autotype.macdermid.com/how-to-guides/details/13/how_to_guide_exposing_plus_emulsions',
  },
  {
    says: 'Whole after washout, then tacky and broken down in the run.',
    yes: ['breaks down in print', 'tacky in print'],
    cause: 'too little light',
    source:
      'http://autotype.macdermid.com/how-to-guides/details/13/how_to_guide_exposing_plus_emulsions',
  },
  {
    says: 'The design melts away under the spray; the time on the machine was too short.',
    yes: ['ground washes off', 'under the dose'],
    cause: 'too little light',
    source: 'https://jamesnotarianni.wordpress.com/2017/03/21/screenprinting-failure/',
  },
  {
    says: 'Pinholes, breakdown on the press, residue in open areas after washout.',
    yes: ['pinholes', 'breaks down in print', 'veil'],
    cause: 'too little light',
    source: 'http://www.screenweb.com/content/creatures-habit-screenroom?page=0%2C3',
  },
  {
    says: 'Did not wash out rightly, and now the remover hardly touches it.',
    yes: ['stencil stays on', 'veil'],
    cause: 'too little light',
    source: 'http://www.screenweb.com/content/realities-reclaiming?page=0%2C3',
  },
  {
    says: 'Soft on the ink side; cleaning hardens what is left on the fabric, and a ghost stays.',
    yes: ['slime inside', 'ghost in the fabric'],
    cause: 'too little light',
    source: 'https://asicentral.ca/news/how-to/march-2019/how-to-prevent-ghost-images',
  },
  {
    says: 'A lamp lost output though it lit as ever: screens wash out, then break down; a test shows it.',
    yes: ['breaks down in print', 'wedge low', 'every screen lately'],
    no: ['under the dose'],
    cause: 'weaker lamp',
    source: 'http://www.screenweb.com/content/creatures-habit-screenroom?page=0%2C3',
  },
  {
    says: 'Given more than it needs: holds well, while resolution and definition go.',
    yes: ['thin marks shut', 'marks narrower'],
    no: ['ground washes off', 'soft ground'],
    cause: 'too much light',
    source:
      'http://autotype.macdermid.com/how-to-guides/details/13/how_to_guide_exposing_plus_emulsions',
  },
  {
    says: 'Minutes too long and the lamp too near: half an hour of scrubbing opens nothing.',
    yes: ['nothing opens', 'over the dose'],
    cause: 'too much light',
    source:
      'http://blog.thenationaldesigncollective.ca/2011/08/if-first-you-dont-succeed-fail-again.html',
  },
  {
    says: 'Film not held against the coat: light runs under it, edges are fuzzy, detail goes.',
    yes: ['soft edges', 'thin marks shut', 'vacuum low'],
    cause: 'poor contact',
    source: 'https://sourceone.nazdar.com/FAQ?QuestionID=167&AFMID=570',
  },
  {
    says: 'The gauge reads high, yet one part of the image is undercut: the rim seals early there.',
    yes: ['blurred in one place'],
    no: ['vacuum low'],
    cause: 'poor contact',
    source: 'http://screenweb.com/content/ensuring-uniform-vacuum-draw-screen-exposure',
  },
  {
    says: 'Light leaks round the black: dots go, areas shrink evenly; a better vacuum cures it.',
    yes: ['marks narrower', 'thin marks shut', 'vacuum low'],
    cause: 'poor contact',
    source: 'http://www.mirrorimage.com/guide/genrl/exposure.htm',
  },
  {
    says: 'Light comes through the black of the film: edges of curves suffer.',
    yes: ['ragged edges', 'film pale'],
    cause: 'weak film',
    source:
      'https://www.mrprint.com/blog/831-sawtoothing-pin-holes-breakdown-a-practical-guide-to-prevention',
  },
  {
    says: 'Black that is not opaque enough will not be washed out.',
    yes: ['thin marks shut', 'film pale'],
    cause: 'weak film',
    source: 'https://decoexperts.home.blog/2020/04/08/an-introduction-to-printing-a-film-positive/',
  },
  {
    says: 'Edges like stairs on a coarse fabric; valleys between threads, the coat is too thin.',
    yes: ['ragged edges', 'coat thin'],
    cause: 'thin coat',
    source:
      'https://www.mrprint.com/blog/831-sawtoothing-pin-holes-breakdown-a-practical-guide-to-prevention',
  },
  {
    says: 'Coated more than a week ago: the smallest dots are not resolved any more.',
    yes: ['thin marks shut', 'coating old'],
    cause: 'coated too long ago',
    source: 'https://screenprintingmag.com/screenmakingthe-gateway-to-image-quality/',
  },
  {
    says: 'A two-part bucket of last year: whatever the time, nothing washes out.',
    yes: ['nothing opens', 'bucket old'],
    no: ['over the dose'],
    cause: 'old bucket',
    source: 'http://www.buhaybohemio.com/2011/03/learning-screen-printing-1st-burning.html',
  },
  {
    says: 'Pinpoints of light get into the drying box: much harder to wash out.',
    yes: ['slow to open', 'light got in'],
    cause: 'fogged before',
    source: 'http://mary-adam.blogspot.com/2013/12/drying-emulsion-coated-screen.html',
  },
  {
    says: 'Round thin places where oil or residue sat on the fabric.',
    yes: ['round thin spots'],
    cause: 'dirty fabric',
    source: 'https://screenprintingmag.com/how-to-keep-pinholes-from-plaguing-your-screens-part-1/',
  },
  {
    says: 'Pinholes from dust that settled while it dried in a draught.',
    yes: ['pinholes', 'dried in dust'],
    cause: 'dust in the coat',
    source:
      'https://anatol.com/screen-printing-business-blog/our-7-best-tips-for-preventing-pinholes-in-your-screen-printing-screens/',
  },
  {
    says: 'Tacky, softening, its colour turning back: ink or cleaner attacks it.',
    yes: ['tacky in print', 'pinholes in print'],
    no: ['dried short', 'under the dose'],
    cause: 'ink attacks it',
    source: 'https://www.kissel-wolf.com.au/how-to-keep-pinholes-from-plaguing-your-screen-2/',
  },
  {
    says: 'A pressure gun on the squeegee side blows the stencil off the mesh.',
    yes: ['patches come off', 'hard spray'],
    cause: 'harsh washout',
    source: 'https://www.macdermidconnect.com/stencil-making-process/7-washout-and-dry-stencil',
  },
]
