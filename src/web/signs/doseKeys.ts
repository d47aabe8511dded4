/** Half a step of a 0.15 D wedge, as a factor of doses. */
const HALF_STEP = 10 ** 0.075

/** A dose as one can set it: whole from 10 up, tenths below; kept inside the scale. */
export function settled(
  doseLu: number,
  { lowLu, highLu }: Readonly<{ lowLu: number; highLu: number }>,
): number {
  const grain = doseLu < 10 ? 0.1 : 1
  const rounded = Number((Math.round(doseLu / grain) * grain).toFixed(1))
  return Math.min(highLu, Math.max(lowLu, rounded))
}

/** The dose after a key was pressed on it; null for a key that means nothing here. */
export function doseAfterKey(
  key: string,
  { doseLu, lowLu, highLu }: Readonly<{ doseLu: number; lowLu: number; highLu: number }>,
): number | null {
  const within = { lowLu, highLu }
  const unit = doseLu < 10 ? 0.1 : 1
  switch (key) {
    case 'ArrowRight':
    case 'ArrowUp':
      return settled(doseLu + unit, within)
    case 'ArrowLeft':
    case 'ArrowDown':
      return settled(doseLu - unit, within)
    case 'PageUp':
      return settled(doseLu * HALF_STEP, within)
    case 'PageDown':
      return settled(doseLu / HALF_STEP, within)
    case 'Home':
      return lowLu
    case 'End':
      return highLu
    default:
      return null
  }
}
