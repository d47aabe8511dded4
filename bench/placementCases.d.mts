import type { PlacementProblem } from '../src/core/placement/problem.ts'

export function placementCases(
  asked: Readonly<{ seed: number; count: number; films: number }>,
): readonly PlacementProblem[]
