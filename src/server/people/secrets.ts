import { createHash, randomBytes, scrypt, timingSafeEqual } from 'node:crypto'

/** As costly as a classroom's computer bears: 32 MB and some tenths of a second. Judged. */
const PASSWORD_COST = { log2: 15, r: 8, p: 3 }
const CODE_COST = { log2: 14, r: 8, p: 1 }
const HASH_BYTES = 32
const SALT_BYTES = 16
const MOST_MEMORY = 2 ** 26

/** Digits and letters without i, l, o and u: nothing is taken for another. */
const SIGNS = '0123456789abcdefghjkmnpqrstvwxyz'
const CODE_SIGNS = 6

/** What is kept of a password, under a salt of its own. */
export async function passwordHash(password: string): Promise<string> {
  const salt = randomBytes(SALT_BYTES)
  const hash = await scrypted(password, { salt, ...PASSWORD_COST })
  const { log2, r, p } = PASSWORD_COST
  return ['scrypt', log2, r, p, salt.toString('base64url'), hash.toString('base64url')].join('$')
}

/** Whether a password is the one that was kept. */
export async function isPassword(password: string, kept: string): Promise<boolean> {
  const [kind, log2, r, p, salt = '', hash = ''] = kept.split('$')
  const cost = { log2: Number(log2), r: Number(r), p: Number(p) }
  if (kind !== 'scrypt' || !(cost.log2 >= 10 && cost.log2 <= 16)) return false
  const made = await scrypted(password, { salt: Buffer.from(salt, 'base64url'), ...cost })
  const known = Buffer.from(hash, 'base64url')
  return known.length === made.length && timingSafeEqual(made, known)
}

/** A new code for a card: 30 random bits in six signs. */
export function newCode(): string {
  return Array.from(randomBytes(CODE_SIGNS), (byte) => SIGNS.charAt(byte % 32)).join('')
}

/** As it stands on a card: `h7k-3q9`. */
export function codeText(code: string): string {
  return `${code.slice(0, 3)}-${code.slice(3)}`
}

/** What people type, as it was made: capitals, gaps and look-alikes do not matter. */
export function codeTyped(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^0-9a-z]/g, '')
    .replaceAll('o', '0')
    .replace(/[il]/g, '1')
}

/**
 * What is kept of a code: one salt for the shop, so that a card is found without trying everybody's.
 *
 * @param shopId the shop's own, which no other has
 */
export async function codeHash(
  code: string,
  { shopId }: Readonly<{ shopId: string }>,
): Promise<string> {
  const hash = await scrypted(code, { salt: Buffer.from(`card ${shopId}`), ...CODE_COST })
  return hash.toString('hex')
}

/** A cookie's token, and what is kept of it. */
export function newToken(): Readonly<{ token: string; tokenHash: string }> {
  const token = randomBytes(32).toString('base64url')
  return { token, tokenHash: tokenHashOf(token) }
}

export function tokenHashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex')
}

type Cost = Readonly<{ salt: Uint8Array; log2: number; r: number; p: number }>

function scrypted(secret: string, { salt, log2, r, p }: Cost): Promise<Buffer> {
  const options = { N: 2 ** log2, r, p, maxmem: MOST_MEMORY }
  return new Promise((resolve, reject) => {
    scrypt(secret.normalize('NFKC'), salt, HASH_BYTES, options, (cause, key) => {
      if (cause === null) resolve(key)
      else reject(cause)
    })
  })
}
