import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from 'react'
import { keep, kept } from './kept.ts'
import { isBench, useWay } from './router.tsx'
import type { Units } from './signs/Ruler.tsx'

/** Paper, night, or as the device has it. */
export type SchemeChoice = 'paper' | 'night' | 'device'

export type Settings = Readonly<{
  /** Null: as the shop has it. */
  units: Units | null
  scheme: SchemeChoice
  setUnits: (units: Units) => void
  setScheme: (scheme: SchemeChoice) => void
}>

const SettingsContext = createContext<Settings | null>(null)
const KEYS = { units: 'yellowroom.units', scheme: 'yellowroom.scheme' } as const
const DARK = '(prefers-color-scheme: dark)'

/** What a person set for this device: units and scheme; kept by the browser where it may. */
export function SettingsRoom({ children }: Readonly<{ children: ReactNode }>): ReactNode {
  const atBench = isBench(useWay().path)
  const [units, setUnits] = useState<Units | null>(() => {
    const chosen = kept(KEYS.units)
    return chosen === 'metric' || chosen === 'imperial' ? chosen : null
  })
  const [scheme, setScheme] = useState<SchemeChoice>(() => {
    const chosen = kept(KEYS.scheme)
    return chosen === 'paper' || chosen === 'night' ? chosen : 'device'
  })
  useEffect(() => {
    const device = matchMedia(DARK)
    const show = (): void => {
      const shown = scheme === 'device' ? (device.matches ? 'night' : 'paper') : scheme
      const root = document.documentElement
      root.dataset['scheme'] = atBench ? 'bench' : shown
      root.style.background = ''
    }
    show()
    device.addEventListener('change', show)
    return () => device.removeEventListener('change', show)
  }, [scheme, atBench])
  const settings = useMemo<Settings>(
    () => ({
      units,
      scheme,
      setUnits: (chosen) => {
        keep(KEYS.units, chosen)
        setUnits(chosen)
      },
      setScheme: (chosen) => {
        keep(KEYS.scheme, chosen)
        setScheme(chosen)
      },
    }),
    [units, scheme],
  )
  return <SettingsContext value={settings}>{children}</SettingsContext>
}

/** @throws RangeError outside of a SettingsRoom */
export function useSettings(): Settings {
  const settings = useContext(SettingsContext)
  if (settings === null)
    throw new RangeError('useSettings: expected a SettingsRoom around the page')
  return settings
}
