import { type ReactNode, useState } from 'react'
import type { NewRun, Run, RunList } from '../../api/bench.ts'
import { PATHS } from '../../api/paths.ts'
import { Following } from '../clocks/Following.tsx'
import { keep, kept } from '../kept.ts'
import { newKey } from '../newKey.ts'
import { useNotShown } from '../people/NotShown.tsx'
import { benchRoute, Link, ROUTES, useWay } from '../router.tsx'
import { useShop } from '../shop.tsx'
import { useSending } from '../tests/useSending.ts'
import { useAsked } from '../useAsked.ts'
import { useMedia } from '../useMedia.ts'
import { BENCH_WORDS, saidOf } from './benchWords.ts'
import type { Device } from './device.ts'
import { Acts } from './Panel.tsx'

const RUNS = { path: PATHS.runs }
const KEY = 'yellowroom.bench.begin'

/** Before the first step: the lamp, this device, and exposures that go on. */
export function BenchStart({
  device,
  onDevice,
}: Readonly<{ device: Device; onDevice: (changed: Partial<Device>) => void }>): ReactNode {
  const { search, go } = useWay()
  const [from, setFrom] = useState<'cold' | 'hot' | null>(null)
  const [runs] = useAsked<RunList>(RUNS)
  const sending = useSending<Run>()
  const asked = new URLSearchParams(search)
  const notShown = useNotShown('expose', asked.get('unit'))
  const refusal = notShown ?? sending.message
  const isPhone = useMedia(PHONE)
  const isDemo = useShop().asked.answer?.state === 'demo'
  const begin = async (): Promise<void> => {
    if (sending.isBusy) return
    const body: NewRun = {
      ...questionIn(search),
      key: keyFor(search),
      ...(from === null ? {} : { from }),
    }
    const run = await sending.send({ path: PATHS.runs, method: 'POST', body })
    if (run === null) return
    keep(KEY, '', 'tab')
    go(benchRoute(run.id), 'replace')
  }
  return (
    <>
      <header className="bench-head">
        <Link to={ROUTES.light} className="bench-link">
          {BENCH_WORDS.leave}
        </Link>
        {isDemo && <p className="bench-tape">DEMO SHOP</p>}
      </header>
      <Following atBench={{ run: null }} />
      <main id="page" tabIndex={-1} className="bench-main">
        <h1>{BENCH_WORDS.title}</h1>
        {refusal !== null && (
          <p role="alert" className="bench-caution">
            {refusal}
          </p>
        )}
        <p>{BENCH_WORDS.covered}</p>
        <p>{BENCH_WORDS.first}</p>
        <div className="bench-choice">
          <p className="bench-word">{BENCH_WORDS.lamp}</p>
          {(['cold', 'hot'] as const).map((is) => (
            <Toggle
              key={is}
              word={BENCH_WORDS[is]}
              isOn={from === is}
              onPress={() => setFrom(from === is ? null : is)}
            />
          ))}
        </div>
        <div className="bench-choice">
          <p className="bench-word">{BENCH_WORDS.device}</p>
          {(['red', 'amber'] as const).map((light) => (
            <Toggle
              key={light}
              word={BENCH_WORDS[light]}
              isOn={device.light === light}
              onPress={() => onDevice({ light })}
            />
          ))}
          {(isPhone ? (['sound'] as const) : (['sound', 'keys'] as const)).map((what) => (
            <Toggle
              key={what}
              word={BENCH_WORDS[what]}
              isOn={device[what]}
              onPress={() => onDevice({ [what]: !device[what] })}
            />
          ))}
        </div>
        <p>{BENCH_WORDS.coin}</p>
        {(runs.answer?.runs ?? []).slice(0, MOST_OPEN).map(({ id, about, layer, step }) => (
          <Link key={id} to={benchRoute(id)} className="bench-link">
            {BENCH_WORDS.goOn} {saidOf({ about, layer })}, {about.screen ?? about.unit}: {step}
          </Link>
        ))}
      </main>
      <Acts
        left={null}
        main={{
          word: sending.isBusy ? BENCH_WORDS.beginning : BENCH_WORDS.begin,
          onPress: () => void begin(),
          not: notShown !== null,
        }}
      />
    </>
  )
}

const MOST_OPEN = 4
/** It has no keys to turn off. */
const PHONE = '(max-width: 30rem) and (pointer: coarse)'
const ASKED = ['medium', 'film', 'base', 'screen', 'unit', 'place'] as const

/** What Light was asked, as the address has it. */
function questionIn(search: string): Omit<NewRun, 'key' | 'from'> {
  const said = new URLSearchParams(search)
  const pairs = ASKED.flatMap((name) => {
    const value = said.get(name)
    return value === null || value === '' ? [] : [[name, value]]
  })
  return Object.fromEntries(pairs) as Omit<NewRun, 'key' | 'from'>
}

/** Pressed again after no answer came, it is the same exposure. */
function keyFor(search: string): string {
  const [before, key] = (kept(KEY, 'tab') ?? '').split(' ')
  if (before === search && key !== undefined) return key
  const fresh = newKey()
  keep(KEY, `${search} ${fresh}`, 'tab')
  return fresh
}

function Toggle({
  word,
  isOn,
  onPress,
}: Readonly<{ word: string; isOn: boolean; onPress: () => void }>): ReactNode {
  return (
    <button type="button" className="bench-toggle" aria-pressed={isOn} onClick={onPress}>
      {word}
    </button>
  )
}
