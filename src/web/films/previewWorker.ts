import { isFailure } from '../../core/failure.ts'
import type { FilmPlan, Ink } from '../../core/separation/plan.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import { filmStages } from '../../raster/films/filmStages.ts'
import { keptTones } from '../../raster/films/keptTones.ts'
import type { Screen } from '../../raster/films/screen.ts'
import type { Tones } from '../../raster/films/tones.ts'
import { isEmptyPlate } from '../../workflow/makeFilms/emptyPlate.ts'
import { type FilmSize, filmSize } from '../../workflow/makeFilms/filmSize.ts'
import { loupeDots } from '../../workflow/makeFilms/loupeDots.ts'
import {
  type InkParter,
  inkParter,
  plateScreen,
  UNDERBASE_OPACITY,
} from '../../workflow/makeFilms/plates.ts'
import {
  heavyFindings,
  heldTones,
  previewFindings,
} from '../../workflow/makeFilms/previewFindings.ts'
import { type PreviewPlates, previewPlates } from '../../workflow/makeFilms/previewPlates.ts'
import { type ArtworkSamples, artworkSamples, type Through } from './artworkSamples.ts'
import { artworkSeen } from './artworkSeen.ts'
import { inksFound } from './inksFound.ts'
import { moireOf } from './plateMoire.ts'
import type {
  ArtworkAsk,
  Dots,
  InksAsk,
  Looked,
  LoupeAsk,
  PlateSeen,
  PreviewAsk,
  PreviewSent,
  PreviewWord,
} from './previewAsk.ts'
import { printDots } from './printDots.ts'

// Films are made small, and looked at through the loupe, in a worker: this file.

type Asked = PreviewAsk | LoupeAsk | InksAsk | ArtworkAsk

/** What a worker's own room offers, as far as it is used here. */
type Room = Readonly<{
  postMessage: (word: PreviewWord, transfer: Transferable[]) => void
  addEventListener: (kind: 'message', hear: (event: MessageEvent<Asked>) => void) => void
}>
const room = self as unknown as Room

/** Around what the loupe shows, for edges that move and for enlarging. */
const RIM_PX = 4

let samples: Readonly<{ key: string; kept: ArtworkSamples }> | null = null
let parter: Readonly<{ key: string; part: InkParter }> | null = null
// of the whole, and of the sketch before it
const inked = new Map<boolean, Readonly<{ key: string; tones: Tones }>>()
const parted = new Map<boolean, Readonly<{ key: string; plates: PreviewPlates }>>()
let staged: Readonly<{ key: string; stages: ReturnType<typeof filmStages> }> | null = null
let sent: ReturnType<typeof filmStages> | null = null
const screened = new Map<string, Screen>()

room.addEventListener('message', ({ data }) => void answered(data))

async function answered(asked: Asked): Promise<void> {
  const { number } = asked
  try {
    if (asked.kind === 'inks') {
      const found = await inksFound(
        await samplesOf(asked).small({ inks: [], keepsCmyk: false }),
        asked,
      )
      room.postMessage({ kind: 'inks', number, found }, [])
      return
    }
    if (asked.kind === 'artwork') {
      const seen = await artworkSeen(samplesOf(asked), asked.picture.space)
      room.postMessage({ kind: 'artwork', number, seen }, [seen])
      return
    }
    if (asked.kind === 'loupe') {
      const dots = await dotsOf(asked)
      room.postMessage({ kind: 'loupe', number, dots }, [dots.black.buffer as ArrayBuffer])
      return
    }
    const began = performance.now()
    const preview = await previewOf(asked)
    const tookMs = performance.now() - began
    room.postMessage({ kind: 'preview', number, preview, tookMs }, [...(preview.stages ?? [])])
  } catch (cause) {
    const message = isFailure(cause) ? cause.message : null
    room.postMessage({ kind: 'failed', number, message }, [])
  }
}

function samplesOf({ artwork, picture }: Looked): ArtworkSamples {
  const key = `${artwork} ${picture.version}`
  if (samples?.key !== key) {
    samples = { key, kept: artworkSamples(artwork, picture) }
    inked.clear()
    parted.clear()
  }
  return samples.kept
}

function throughFor({ inks, mode }: FilmPlan): Through {
  return { inks: inks.map(({ name }) => name.toLowerCase()), keepsCmyk: mode === 'process' }
}

async function previewOf(wanted: PreviewAsk): Promise<PreviewSent> {
  const asked =
    parted.get(false)?.key === platesKey(wanted) ? { ...wanted, isSketch: false } : wanted
  const { picture } = asked
  const plates = await platesFor(asked)
  const { widthPx, heightPx } = picture.small
  const stages = stagesFor(plates, asked)
  return {
    widthPx,
    heightPx,
    ...foundIn(plates, asked),
    stages: await stagesToSend(stages, plates),
    plates: plates.plates.map((plate, at) => seenPlate(plate, at, asked)),
  }
}

function seenPlate(
  { tones, name, isUnderbase, lab, opacity, coverageShare }: PreviewPlates['plates'][number],
  at: number,
  asked: PreviewAsk,
): PlateSeen {
  const { plan, fabric } = asked
  return {
    name,
    isUnderbase,
    lab,
    opacity,
    coverageShare,
    isEmpty: isEmptyPlate(tones, plan, () => screenOf(plan, at, filmSize(plan, asked))),
    moire: moireOf(plan, at, fabric),
  }
}

function foundIn(
  plates: PreviewPlates,
  { plan, fabric, inkLimit, isSketch }: PreviewAsk,
): Pick<PreviewSent, 'holds' | 'findings'> {
  if (isSketch) return { holds: heldTones(plan, fabric), findings: null }
  const heavy = heavyFindings(plates, { plan, limit: inkLimit })
  if (fabric === null) return { holds: null, findings: heavy }
  const { holds, findings } = previewFindings(plates, { plan, fabric })
  return { holds, findings: [...heavy, ...findings] }
}

/** What lies on the table is laid anew only where inks or stock have changed. */
function stagesFor(plates: PreviewPlates, asked: PreviewAsk): ReturnType<typeof filmStages> {
  const paper = asked.plan.paper ?? null
  const key = JSON.stringify([platesKey(asked), asked.isSketch, paper])
  if (staged?.key !== key) {
    const places = plates.widthPx * plates.heightPx
    staged = { key, stages: filmStages(plates.plates, { places, paper }) }
  }
  return staged.stages
}

/** They are painted and sent once. */
async function stagesToSend(
  stages: ReturnType<typeof filmStages>,
  { widthPx, heightPx }: Pick<PreviewPlates, 'widthPx' | 'heightPx'>,
): Promise<PreviewSent['stages']> {
  if (stages === sent) return null
  const painted = await Promise.all(
    stages.map((rgba) => createImageBitmap(new ImageData(rgba, widthPx, heightPx))),
  )
  sent = stages
  return painted
}

/** Inks are parted anew only where something else than dots has changed. */
function platesKey({ artwork, plan, ...shape }: PreviewAsk): string {
  const { inks, mode, edgeUm, underbase } = plan
  // a turn of the dots changes no tone
  const asInks = inks.map((ink) => ({ ...ink, angleDeg: null }))
  // another size alone changes how far edges move, and nothing where they stay
  const moves = edgeUm !== 0 || underbase !== null || inks.some((ink) => ink.edgeUm !== undefined)
  const edges = moves ? [edgeUm, underbase, filmSize(plan, shape).widthMm] : null
  return JSON.stringify([artwork, asInks, mode, edges, plan.limits])
}

async function platesFor(asked: PreviewAsk): Promise<PreviewPlates> {
  const { plan, isSketch } = asked
  const kept = samplesOf(asked)
  const key = platesKey(asked)
  const known = parted.get(isSketch)
  if (known?.key === key) return known.plates
  const small = await kept.small(throughFor(plan), isSketch)
  const plates = await previewPlates(small, {
    plan,
    widthMm: filmSize(plan, asked).widthMm,
    parted: await inkedFor(small, asked),
  })
  parted.set(isSketch, { key, plates })
  return plates
}

/** Curves, edges and white under all come after: colours are parted anew only for other inks. */
async function inkedFor(small: Artwork, { plan, isSketch }: PreviewAsk): Promise<Tones | null> {
  const { mode, inks, limits } = plan
  if (mode === 'single') return null
  const colours = inks.map(({ lab, opacity, takes, highlightsFrom }) => [
    lab,
    opacity,
    takes,
    highlightsFrom,
  ])
  const key = JSON.stringify([mode, mode === 'process' ? null : colours, limits])
  const known = inked.get(isSketch)
  if (known?.key === key) return known.tones
  // a sketch and the whole look up the same tables
  if (parter?.key !== key) parter = { key, part: inkParter(plan, { soft: true }) }
  const tones = await keptTones(parter.part(small))
  inked.set(isSketch, { key, tones })
  return tones
}

/** A plate's screen takes longer to make than a place under the loupe. */
function screenOf(plan: FilmPlan, plate: number, size: FilmSize): Screen {
  const { halftone, inks, underbase } = plan
  const ink = inks[underbase === null ? plate : plate - 1]
  const key = JSON.stringify([halftone, ink?.angleDeg, ink?.tones, size.pixelUm])
  const known = screened.get(key) ?? plateScreen(plan, plate, size)
  if (screened.size >= MOST_SCREENS) screened.clear()
  screened.set(key, known)
  return known
}

/** As many as a plan has plates, and those of the one before. */
const MOST_SCREENS = 14

async function dotsOf(asked: LoupeAsk): Promise<Dots> {
  const { plan, plate, xShare, yShare, acrossMm, picture } = asked
  const size = filmSize(plan, asked)
  const sidePx = Math.min(Math.ceil((1000 * acrossMm) / size.pixelUm), size.widthPx, size.heightPx)
  const within = (place: number, side: number): number =>
    Math.round(Math.min(side - sidePx, Math.max(0, place * side - sidePx / 2)))
  const at = { xPx: within(xShare, size.widthPx), yPx: within(yShare, size.heightPx) }
  const [across, down] = [picture.widthPx / size.widthPx, picture.heightPx / size.heightPx]
  const edges = plan.inks.map(({ edgeUm = plan.edgeUm }) => Math.abs(edgeUm))
  const reach = Math.max(...edges) + (plan.underbase?.chokeUm ?? 0)
  const rim = RIM_PX + Math.ceil((reach / size.pixelUm) * across)
  const cut = {
    left: Math.max(0, Math.floor(at.xPx * across) - rim),
    top: Math.max(0, Math.floor(at.yPx * down) - rim),
    right: Math.min(picture.widthPx, Math.ceil((at.xPx + sidePx) * across) + rim),
    bottom: Math.min(picture.heightPx, Math.ceil((at.yPx + sidePx) * down) + rim),
  }
  const part = await samplesOf(asked).part(cut, throughFor(plan))
  const { pixelUm } = size
  const dotsFor = (which: number): ReturnType<typeof loupeDots> =>
    loupeDots(part, { plan, size, plate: which, screen: screenOf(plan, which, size), at, sidePx })
  const dots = await dotsFor(plate)
  if (asked.view === 'stencil') return { ...dots, pixelUm, print: null }
  const { underbase, paper = null } = plan
  const under = underbase === null ? [] : [underInk(underbase)]
  const inks = [...under, ...plan.inks]
  const plates: Uint8Array[] = []
  for (const which of inks.keys()) {
    plates.push(which === plate ? dots.black : (await dotsFor(which)).black)
  }
  return { ...dots, pixelUm, print: printDots(plates, { inks, paper }) }
}

function underInk({ name, lab }: NonNullable<FilmPlan['underbase']>): Ink {
  return { name, lab, opacity: UNDERBASE_OPACITY, angleDeg: null }
}
