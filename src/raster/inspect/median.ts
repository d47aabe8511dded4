/**
 * The middle value: of an even count the upper of the two.
 *
 * @param values are put in another order
 * @returns NaN of nothing
 */
export function median(values: Float64Array): number {
  const middle = values.length >> 1
  let [from, to] = [0, values.length - 1]
  // by parts, as a sort would, but only on the side where the middle lies
  while (from < to) {
    const pivot = values[(from + to) >> 1]
    let [low, high] = [from, to]
    while (low <= high) {
      while (values[low] < pivot) low += 1
      while (values[high] > pivot) high -= 1
      if (low > high) break
      const kept = values[low]
      values[low] = values[high]
      values[high] = kept
      low += 1
      high -= 1
    }
    if (middle <= high) to = high
    else if (middle >= low) from = low
    else break
  }
  return values.length === 0 ? Number.NaN : values[middle]
}
