import type { NewRun, RunAbout } from '../../api/bench.ts'
import type { LightAnswer } from '../../api/light.ts'
import type { Told } from '../http/route.ts'

type Answered = Pick<Told<LightAnswer>, 'asked' | 'countsIn' | 'dose' | 'lampTime'>

/**
 * What a run is about, from what Light answered.
 *
 * @param from how the lamp is lit; a unit that counts seconds has Light's in those of a hot lamp
 */
export function aboutOf(
  { asked, countsIn, dose, lampTime }: Answered,
  { from }: Pick<NewRun, 'from'>,
): RunAbout {
  const { subject, screen, unit } = asked
  const seconds = lampTime === null ? null : { hot: lampTime.hotSec, cold: lampTime.coldSec }
  const times =
    countsIn === 'seconds' && from === 'cold' && seconds !== null ? seconds.cold / seconds.hot : 1
  const { value, low, high } = dose
  const set = { value: value * times, low: low * times, high: high * times }
  return {
    subject: subject.name,
    screen: screen?.name ?? null,
    unit: unit.name,
    countsIn,
    dose: set,
    litSec:
      countsIn === 'seconds'
        ? {
            low: set.value,
            high: set.value,
          }
        : litSec(seconds, { from }),
  }
}

/** From cold, from hot, or from wherever between them. */
function litSec(
  seconds: Readonly<{ hot: number; cold: number }> | null,
  { from }: Pick<NewRun, 'from'>,
): RunAbout['litSec'] {
  if (seconds === null) return null
  if (from !== undefined) return { low: seconds[from], high: seconds[from] }
  const { hot, cold } = seconds
  return { low: Math.min(hot, cold), high: Math.max(hot, cold) }
}
