import { useCallback, useState } from 'react'
import { keep, kept } from '../kept.ts'

/** What is set for this device at the bench; kept by the browser where it may. */
export type Device = Readonly<{
  /** Red alone until a coin test has shown that amber does no harm here. */
  light: 'red' | 'amber'
  sound: boolean
  keys: boolean
}>

const KEY = 'yellowroom.bench'
const AT_FIRST: Device = { light: 'red', sound: true, keys: true }

export function useDevice(): readonly [Device, (changed: Partial<Device>) => void] {
  const [device, setDevice] = useState(deviceKept)
  const change = useCallback((changed: Partial<Device>) => {
    const next = { ...deviceKept(), ...changed }
    keep(KEY, JSON.stringify(next))
    setDevice(next)
  }, [])
  return [device, change]
}

function deviceKept(): Device {
  try {
    return { ...AT_FIRST, ...(JSON.parse(kept(KEY) ?? '{}') as Partial<Device>) }
  } catch {
    return AT_FIRST
  }
}
