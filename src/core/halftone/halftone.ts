import type { DotShapeName } from './dotShapes.ts'

/** How tones become dots: as plans say it. */
export type Halftone =
  | Readonly<{ kind: 'dot'; shape: DotShapeName; rulingPerCm: number; angleDeg: number }>
  | Readonly<{ kind: 'stochastic'; seed: number; dotUm?: number }>
