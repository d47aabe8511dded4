/** What this device keeps under a name; null where there is nothing or it keeps nothing for us. */
export function kept(key: string, room: 'device' | 'tab' = 'device'): string | null {
  try {
    return storage(room).getItem(key)
  } catch {
    return null // the browser keeps nothing for us: then each visit begins anew
  }
}

export function keep(key: string, value: string, room: 'device' | 'tab' = 'device'): void {
  try {
    storage(room).setItem(key, value)
  } catch {
    // as above
  }
}

function storage(room: 'device' | 'tab'): Storage {
  return room === 'device' ? localStorage : sessionStorage
}
