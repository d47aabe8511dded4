import type { ReactNode } from 'react'
import { type SchemeChoice, useSettings } from '../settings.tsx'
import { useUnits } from '../shop.tsx'
import { FRAME_WORDS } from '../words.ts'

const AFTER: Readonly<Record<SchemeChoice, SchemeChoice>> = {
  paper: 'night',
  night: 'device',
  device: 'paper',
}

/** Units and colours, each a word that changes when it is pressed. */
export function Switches(): ReactNode {
  const { scheme, setScheme, setUnits } = useSettings()
  const units = useUnits()
  return (
    <div className="switches" role="group" aria-label={FRAME_WORDS.settings}>
      <Switch
        says={FRAME_WORDS.units[units]}
        does={FRAME_WORDS.changeUnits}
        onPress={() => setUnits(units === 'metric' ? 'imperial' : 'metric')}
      />
      <Switch
        says={FRAME_WORDS.scheme[scheme]}
        does={FRAME_WORDS.changeScheme}
        onPress={() => setScheme(AFTER[scheme])}
      />
    </div>
  )
}

function Switch({
  says,
  does,
  onPress,
}: Readonly<{ says: string; does: string; onPress: () => void }>): ReactNode {
  return (
    <button type="button" className="switch" onClick={onPress}>
      <span>{says}</span>
      <span className="unseen">{`, ${does}`}</span>
    </button>
  )
}
