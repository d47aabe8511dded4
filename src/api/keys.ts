/** What a key looks like, for whoever sent none: its sender made it, so that told twice it counts once. */
export const KEY_LIKE = 'pulled-7f3a09c2'
