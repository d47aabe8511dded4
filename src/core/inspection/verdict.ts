import type { Finding, FindingKind } from './findings.ts'

export type Verdict = 'good' | 'wash more' | 'spot it' | 'make again'

/** Edges that broke over more than this cannot be drawn again with filler (judged). */
const MOST_BROKEN_MM2 = 6

/**
 * What to do next. Ground that is gone comes first: washing on would only take more. Then what is
 * still shut, while it is wet and can still open. Spots wait for a dry screen.
 */
export function verdictOf(findings: readonly Finding[]): Verdict {
  const area = (kind: FindingKind): number =>
    findings.reduce((sum, finding) => sum + (finding.kind === kind ? finding.areaMm2 : 0), 0)
  if (area('missing area') > 0 || area('broken edge') > MOST_BROKEN_MM2) return 'make again'
  if (area('blocked') > 0 || area('veil') > 0) return 'wash more'
  return findings.length > 0 ? 'spot it' : 'good'
}
