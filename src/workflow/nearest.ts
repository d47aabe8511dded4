/** The word that was probably meant, or undefined when none comes near; the first of equals. */
export function nearest(written: string, known: readonly string[]): string | undefined {
  const asked = written.toLowerCase()
  let best: { word: string; edits: number } | undefined
  for (const word of known) {
    const candidate = word.toLowerCase()
    const edits =
      asked.length > 2 && candidate.startsWith(asked) ? 1 : editsBetween(asked, candidate)
    if (
      edits <= Math.max(1, Math.floor(word.length / 3)) &&
      (best === undefined || edits < best.edits)
    ) {
      best = { word, edits }
    }
  }
  return best?.word
}

/** ` Did you mean 'dose'?` with its leading space, or nothing: to stand at a sentence's end. */
export function didYouMean(written: string, known: readonly string[], before = ''): string {
  const word = nearest(written, known)
  return word === undefined ? '' : ` Did you mean ${before}${word}?`
}

/** How many letters must be put in, left out, changed or swapped with their neighbour. */
function editsBetween(from: string, to: string): number {
  if (Math.abs(from.length - to.length) > 12) return Number.POSITIVE_INFINITY
  let twoBack: number[] = []
  let back = Array.from({ length: to.length + 1 }, (_, at) => at)
  for (let row = 1; row <= from.length; row += 1) {
    const here = [row]
    for (let at = 1; at <= to.length; at += 1) {
      const same = from[row - 1] === to[at - 1]
      let edits = Math.min(
        (back[at] ?? 0) + 1,
        (here[at - 1] ?? 0) + 1,
        (back[at - 1] ?? 0) + (same ? 0 : 1),
      )
      if (row > 1 && at > 1 && from[row - 1] === to[at - 2] && from[row - 2] === to[at - 1]) {
        edits = Math.min(edits, (twoBack[at - 2] ?? 0) + 1)
      }
      here.push(edits)
    }
    twoBack = back
    back = here
  }
  return back[to.length] ?? 0
}
