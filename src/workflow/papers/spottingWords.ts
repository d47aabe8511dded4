import type { Finding, FindingKind } from '../../core/inspection/findings.ts'

const NAMES: Readonly<Record<FindingKind, string>> = {
  blocked: 'Still shut',
  veil: 'A thin skin',
  pinhole: 'Pinhole',
  scratch: 'Scratch',
  'broken edge': 'Broken edge',
  'missing area': 'Ground gone',
}

export const WHAT_TO_DO: Readonly<Record<FindingKind, string>> = {
  blocked: 'Soft spray, both sides.',
  veil: 'Soft spray, both sides, then blot.',
  pinhole: 'Dry, then cover with filler.',
  scratch: 'Dry, then cover with filler.',
  'broken edge': 'Dry, then draw the edge again with filler.',
  'missing area': 'Too much to spot: make the screen again.',
}

/** `Pinhole, 0.8 mm`; for what is wide by its area: `Ground gone, 40 mm2`. */
export function findingWords({ kind, widthUm, areaMm2 }: Finding): string {
  const size =
    areaMm2 >= 10 ? `${Math.round(areaMm2)} mm²` : `${Number((widthUm / 1000).toFixed(1))} mm wide`
  return `${NAMES[kind]}, ${size}`
}
