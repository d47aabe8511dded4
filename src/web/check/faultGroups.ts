import type { Inspection, ScreenFault, ScreenFinding } from '../../api/photos.ts'

/** Faults of one kind. Each keeps its own number: the picture and the printed list number places. */
export type FaultGroup = Readonly<{
  kind: ScreenFault
  findings: readonly ScreenFinding[]
}>

/** The findings by their kind, in the order in which their worst ones come. */
export function faultGroups(findings: Inspection['findings']): readonly FaultGroup[] {
  const kinds = [...new Set(findings.map(({ kind }) => kind))]
  return kinds.map((kind) => ({
    kind,
    findings: findings.filter((finding) => finding.kind === kind),
  }))
}

export type Window = Readonly<{ xMm: number; yMm: number; sideMm: number }>

/** A window is at least so wide, and so many times as wide as what it shows. */
const LEAST_MM = 9
const ROUND_ABOUT = 1.8

/** How long a fault may be at most: its area over its width. */
export function reachMm({ areaMm2, widthUm }: Pick<ScreenFinding, 'areaMm2' | 'widthUm'>): number {
  return Math.max(widthUm / 1000, areaMm2 / (widthUm / 1000))
}

/** A square round a finding, to be shown large; within the film where that is large enough. */
export function windowOn(
  finding: ScreenFinding,
  { widthMm, heightMm }: Readonly<{ widthMm: number; heightMm: number }>,
): Window {
  const largest = Math.min(widthMm, heightMm)
  const asked = Math.ceil(ROUND_ABOUT * reachMm(finding))
  const sideMm = Math.min(largest, Math.max(LEAST_MM, asked))
  const within = (middle: number, whole: number): number =>
    Math.min(whole - sideMm, Math.max(0, middle - sideMm / 2))
  return { xMm: within(finding.xMm, widthMm), yMm: within(finding.yMm, heightMm), sideMm }
}

/** The outcome that a verdict suggests for what the shop remembers; null where it is too early. */
export function gradeSuggested({
  verdict,
  findings,
}: Pick<Inspection, 'verdict' | 'findings'>): 'good' | 'washed off' | 'filled' | null {
  if (verdict === 'good' || verdict === 'spot it') return 'good'
  if (verdict === 'wash more') return null
  const area = (kinds: readonly ScreenFault[]): number =>
    findings
      .filter(({ kind }) => kinds.includes(kind))
      .reduce((sum, { areaMm2 }) => sum + areaMm2, 0)
  const lost = area(['missing area', 'pinhole', 'scratch', 'broken edge'])
  return lost > area(['blocked', 'veil']) ? 'washed off' : 'filled'
}
