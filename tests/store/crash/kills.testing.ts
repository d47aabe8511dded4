/** How often a process is killed at each kind of work, no multiple of 7; `npm run test:long` sets twenty. */
export const KILLS: number = Number(process.env['KILLS'] ?? 8)
