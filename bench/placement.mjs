// Films on a screen, laid best and proved: seconds of this machine's CPU for each of 60 seeded
// problems, tight ones among them. tests/long holds the answers to a general-purpose optimiser, which
// needs seconds to minutes for one of them: a ratio would say nothing.

import { placeFilms } from '../dist/core/placement/place.js'
import { placementCases } from './placementCases.mjs'

const COUNT = 60

export async function placementBench({ report }) {
  const results = []
  for (const films of [4, 6, 8]) {
    const cases = placementCases({ seed: 7, count: COUNT, films })
    placeFilms(cases[0]) // compiled once
    const taken = []
    let proved = 0
    for (const each of cases) {
      const before = process.cpuUsage()
      if (placeFilms(each).proved) proved += 1
      const { user, system } = process.cpuUsage(before)
      taken.push((user + system) / 1000)
    }
    taken.sort((a, b) => a - b)
    const [p50, p90, most] = [taken[COUNT / 2], taken[(COUNT * 9) / 10], taken.at(-1)]
    report(
      `placement, ${films} films: ${proved} of ${COUNT} proved; CPU p50 ${p50.toFixed(0)} ms, p90 ${p90.toFixed(0)} ms, at most ${most.toFixed(0)} ms`,
    )
    results.push({ films, proved, count: COUNT, mostMs: most })
  }
  return results
}
