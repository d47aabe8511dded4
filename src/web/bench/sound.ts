let room: AudioContext | null = null

/** Browsers let a page be heard once it was touched: called at each press. */
export function wakeSound(): void {
  room ??= typeof AudioContext === 'undefined' ? null : new AudioContext()
  if (room?.state === 'suspended') void room.resume().catch(() => null)
}

const KNOCK_HZ = 110
const KNOCK_SEC = 0.25
const APART_SEC = 0.4

/** Low knocks, and the device shakes where it can. */
export function knock(times: 1 | 3): void {
  if ('vibrate' in navigator) navigator.vibrate(times === 1 ? 200 : [300, 150, 300, 150, 300])
  if (room === null) return
  for (let at = 0; at < times; at++) {
    const start = room.currentTime + at * APART_SEC
    const [tone, loud] = [room.createOscillator(), room.createGain()]
    tone.frequency.setValueAtTime(KNOCK_HZ * 2, start)
    tone.frequency.exponentialRampToValueAtTime(KNOCK_HZ / 2, start + KNOCK_SEC)
    loud.gain.setValueAtTime(0.9, start)
    loud.gain.exponentialRampToValueAtTime(0.001, start + KNOCK_SEC)
    tone.connect(loud).connect(room.destination)
    tone.start(start)
    tone.stop(start + KNOCK_SEC)
  }
}
