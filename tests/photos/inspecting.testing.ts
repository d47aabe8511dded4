import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { densityTiff } from '../../fixtures/photos/densityTiff.ts'
import type { FilmDensities } from '../../fixtures/photos/film.ts'
import type { FaultAsked, FaultKind, FaultTruth } from '../../fixtures/photos/screenFaults.ts'
import { json } from '../commands/run.ts'

export type Found = Readonly<{
  kind: FaultKind
  xMm: number
  yMm: number
  areaMm2: number
  widthUm: number
}>

/** What `inspect` answers. */
export type InspectionAnswer = Readonly<{
  verdict: string
  mirrored: boolean
  resolutionUm: number
  findings: readonly Found[]
  warnings: readonly string[]
}>

/** Runs `inspect` on a photo and the film it is to be held to. */
export async function inspectPhotoFile(
  jpeg: Buffer,
  { film, args = [] }: Readonly<{ film: FilmDensities; args?: readonly string[] }>,
): Promise<InspectionAnswer> {
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-photo-'))
  try {
    const [photo, map] = [join(folder, 'photo.jpg'), join(folder, 'film.tif')]
    await writeFile(photo, jpeg)
    await writeFile(map, densityTiff(film))
    return (await json(['inspect', photo, '--film', map, ...args])) as InspectionAnswer
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** Faults of every kind, each somewhat larger than twice what a photo of this pixel tells. */
export function assortedFaults(pixelMm: number): readonly FaultAsked[] {
  const kinds: readonly FaultKind[] = ['blocked', 'veil', 'pinhole', 'scratch', 'broken edge']
  const sizes = [5.2, 7, 10].map((pixels) => pixels * pixelMm)
  const small = kinds.flatMap((kind) => sizes.map((sizeMm) => ({ kind, sizeMm })))
  return [...small, { kind: 'missing area', sizeMm: 6 }]
}

export type Held = Readonly<{
  /** Faults large enough to be asked for, and those of them that were found. */
  asked: number
  found: number
  /** What was claimed, and what of it is there. */
  claimed: number
  right: number
  /** Findings of the right place and the right kind. */
  named: number
  /** Distances in millimetres between each fault found and its finding. */
  offMm: readonly number[]
  /** Widths told over true widths, of the pinholes and scratches found. */
  widthShares: readonly number[]
  missed: readonly FaultTruth[]
  wrong: readonly Found[]
}>

/**
 * Pairs findings with true faults: the nearest within the fault's own reach. Recall counts faults
 * whose smaller width is above twice the stated resolution, precision every finding.
 */
export function heldTo(
  findings: readonly FaultTruth[],
  { answer }: Readonly<{ answer: InspectionAnswer }>,
): Held {
  const least = (2 * answer.resolutionUm) / 1000
  const reach = (fault: FaultTruth): number => (fault.kind === 'scratch' ? 7 : fault.sizeMm + 1)
  const near = (a: Found, b: FaultTruth): number => Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm)
  const right = answer.findings.filter((found) =>
    findings.some((fault) => near(found, fault) < reach(fault)),
  )
  const large = findings.filter(({ sizeMm }) => sizeMm > least)
  const pairs = large.map((fault) => {
    const here = answer.findings.filter((found) => near(found, fault) < reach(fault))
    return { fault, here: here.sort((a, b) => near(a, fault) - near(b, fault))[0] }
  })
  const met = pairs.filter(({ here }) => here !== undefined)
  return {
    asked: large.length,
    found: met.length,
    claimed: answer.findings.length,
    right: right.length,
    named: met.filter(({ fault, here }) => here.kind === fault.kind).length,
    offMm: met.map(({ fault, here }) => near(here, fault)),
    widthShares: met.flatMap(({ fault, here }) =>
      fault.kind === here.kind && (fault.kind === 'pinhole' || fault.kind === 'scratch')
        ? [here.widthUm / 1000 / fault.sizeMm]
        : [],
    ),
    missed: pairs.filter(({ here }) => here === undefined).map(({ fault }) => fault),
    wrong: answer.findings.filter((found) => !right.includes(found)),
  }
}
