import type { FilmPage } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { capital } from '../printPlanNumbers.ts'
import { dayWords } from './dayWords.ts'
import {
  type Block,
  blanks,
  flowPages,
  gap,
  type PaperAbout,
  paragraph,
  rule,
  together,
} from './editionFlow.ts'
import { tallies } from './editionTally.ts'

/** One ink of an edition as it was printed. */
export type EditionLayer = Readonly<{
  place: number
  shortName: string
  ink: string
  /** As it was mixed: "150 g mixing white and 20 g black"; null: nobody said. */
  recipe: string | null
  /** As it would be mixed now. */
  planned: string | null
  /** "screen 8, 77-55" */
  screen: string | null
  pulled: number
  good: number
  spoils: readonly Readonly<{ sheets: number; why: string }>[]
  /** How its colour stood to its proof, in a sentence; null: not checked. */
  colour: string | null
}>

export type EditionPaper = Readonly<{
  owner: string | null
  paper: string | null
  wanted: number | null
  /** Null until the edition is closed: then there are lines to write on. */
  card: Readonly<{
    numbered: number
    artistProofs: number
    proofs: number
    signed: number
    archivePlace: string | null
    signedBy: string | null
  }> | null
  closedOn: string | null
  layers: readonly EditionLayer[]
  about: Omit<PaperAbout, 'what' | 'about'>
  /** As 2026-11-09. */
  date: string
}>

/**
 * The edition card: how many prints, on which paper, of which inks, with tallies and signatures; one
 * copy goes with the archive print. A4, upright.
 *
 * @throws RangeError where the date cannot be
 */
export function editionCardPages(
  edition: EditionPaper,
  { letters }: Readonly<{ letters: Letters }>,
): readonly FilmPage[] {
  const { owner, paper, wanted, card, closedOn, layers, about, date } = edition
  const count = (of: number | undefined): string | null => (of === undefined ? null : String(of))
  const by = owner === null ? 'Nobody’s yet' : `By ${owner}`
  const first = `${by}, ${layers.length} ${layers.length === 1 ? 'layer' : 'layers'}${paper === null ? '' : `, on ${paper}`}.`
  const stands =
    closedOn === null
      ? `Not closed yet${wanted === null ? '' : `; ${wanted} prints are wanted`}. What is not known is for a pencil.`
      : `Closed on ${dayWords(closedOn)}.`
  const blocks: readonly Block[] = [
    paragraph(letters, first, { sizeMm: 4.3 }),
    paragraph(letters, stands, { sizeMm: 4.3, afterMm: 4 }),
    blanks(letters, [
      { label: 'numbered prints', known: count(card?.numbered) },
      { label: 'artist’s proofs', known: count(card?.artistProofs) },
      { label: 'proofs', known: count(card?.proofs) },
      { label: 'signed', known: card === null || card.signed === 0 ? null : String(card.signed) },
    ]),
    blanks(letters, [
      { label: 'paper', known: paper },
      { label: 'the archive copy is in', known: card?.archivePlace ?? null },
    ]),
    gap(2),
    ...layers.map((layer) => layerBlock(layer, letters)),
    together([
      rule(6),
      blanks(letters, [
        { label: 'signed by', known: card?.signedBy ?? null },
        { label: 'signature', known: null },
        { label: 'day', known: null },
      ]),
      blanks(letters, [
        { label: 'printed by', known: null },
        { label: 'taken into the archive by', known: null },
        { label: 'day', known: null },
      ]),
    ]),
  ]
  const paperAbout = {
    ...about,
    what: 'Edition card',
    about: `Edition card ${about.code ?? ''}, ${dayWords(date)}`,
  }
  return flowPages(blocks, { about: paperAbout, letters })
}

function layerBlock(layer: EditionLayer, letters: Letters): Block {
  const { place, shortName, ink, recipe, planned, screen, pulled, good, spoils, colour } = layer
  const spoiled = spoils.map(({ sheets, why }) => `${sheets} spoiled: ${why}`)
  const sheets = [`${pulled} pulled`, ...spoiled, `${good} good`].join('; ')
  const through = screen === null ? '' : `, ${screen}`
  return together([
    rule(),
    paragraph(letters, `${place}  ${capital(ink)}`, { face: 'title', sizeMm: 6, afterMm: 0.6 }),
    paragraph(letters, `${shortName}${through}. ${pulled === 0 ? 'Not printed yet' : sheets}.`),
    ...inkBlocks({ recipe, planned }, letters),
    ...(colour === null ? [] : [paragraph(letters, colour)]),
    tallies(pulled),
    gap(2),
  ])
}

/** What was mixed; else a line for it, and what the plan says. */
function inkBlocks(
  { recipe, planned }: Pick<EditionLayer, 'recipe' | 'planned'>,
  letters: Letters,
): readonly Block[] {
  if (recipe !== null) return [paragraph(letters, `Ink, as mixed: ${recipe}.`)]
  const label = planned === null ? 'ink, as mixed' : `ink, as mixed (planned: ${planned})`
  return [blanks(letters, [{ label, known: null }]), gap(2)]
}
