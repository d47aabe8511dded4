// The belief after five years: what one more reading costs, and a rebuild from all of them; and two
// hundred problems of new shops. There is no general-purpose tool that does this work, so there is no
// ratio: seconds of this machine's CPU, and how many numbers the belief holds.

import { replay } from '../dist/core/calibration/belief/replay.js'
import { calibrate } from '../dist/workflow/calibrate.js'
import { calibrationsFromJson } from '../dist/workflow/readCalibration.js'
import { fiveYears, problem, WEDGE } from './beliefCases.mjs'

const SHOP = { usualBaseDensity: 0, secondsUnits: [] }
const ENTRIES = 5000
const PROBLEMS = 200
const UPDATES = 40

export async function beliefBench({ report }) {
  const evidence = fiveYears({ entries: ENTRIES })
  const rebuild = cpuOf(() => replay(evidence, { shop: SHOP }))
  const { entries } = rebuild.answer.belief
  report(
    `belief, ${ENTRIES} readings of five years: rebuilt in ${rebuild.cpuSec.toFixed(2)} CPU seconds, ` +
      `${entries.length} numbers alive`,
  )

  const today = Math.max(...evidence.map(({ day }) => day))
  const earlier = evidence.filter(({ day }) => day < today)
  const todays = evidence.filter(({ day }) => day === today)
  const evening = replay(earlier, { shop: SHOP }).belief
  const updates = Array.from({ length: UPDATES }, () => {
    return cpuOf(() => replay(todays, { shop: SHOP, from: evening })).cpuSec
  }).sort((a, b) => a - b)
  const update = { typical: updates[UPDATES / 2], worst: updates.at(-1) }
  report(
    `belief, one more reading on a day of ${todays.length}: ${ms(update.typical)} of CPU, ` +
      `at worst ${ms(update.worst)} in ${UPDATES}`,
  )

  const written = JSON.stringify(
    Array.from({ length: PROBLEMS }, (_, at) => asFile(problem(at + 1))),
  )
  const solved = cpuOf(() => calibrationsFromJson(written).problems.map((each) => calibrate(each)))
  report(
    `calibrate, ${PROBLEMS} problems of 12 readings and 3 questions in one call: ${solved.cpuSec.toFixed(2)} CPU seconds`,
  )
  return { rebuild: rebuild.cpuSec, update, problems: solved.cpuSec, numbers: entries.length }
}

/** A problem as `calibrate` reads it: the marks by their medium's name. */
function asFile({ evidence, ask }) {
  const named = ({ marks, ...rest }) => ({ ...rest, ...marks })
  return {
    wedge: WEDGE,
    evidence: evidence.map((each) => named({ ...each, wedge: undefined })),
    ask: ask.map(({ marks: [marks], ...each }) => named({ ...each, marks })),
  }
}

function cpuOf(work) {
  const before = process.cpuUsage()
  const answer = work()
  const { user, system } = process.cpuUsage(before)
  return { answer, cpuSec: (user + system) / 1e6 }
}

function ms(seconds) {
  return `${(1000 * seconds).toFixed(1)} ms`
}
