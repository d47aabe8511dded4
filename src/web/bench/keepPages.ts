/**
 * Keeps the pages on this device, so that the bench opens where there is no connection. Browsers do
 * this on the shop's own computer and where the address begins with https; elsewhere an open page
 * goes on, and one that was closed waits for the connection.
 */
export function keepPages(): void {
  if (!('serviceWorker' in navigator)) return
  navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' }).catch(() => null)
}
