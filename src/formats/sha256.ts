/** SHA-256 of bytes that come in parts. */
export type Sha256 = Readonly<{
  add: (bytes: Uint8Array) => void
  /** The 32 bytes of the hash; nothing may be added afterwards. */
  end: () => Uint8Array
}>

/** The first 32 bits behind the point of the cube roots of the first 64 primes. */
const ROUNDS = Int32Array.of(
  0x428a_2f98,
  0x7137_4491,
  0xb5c0_fbcf,
  0xe9b5_dba5,
  0x3956_c25b,
  0x59f1_11f1,
  0x923f_82a4,
  0xab1c_5ed5,
  0xd807_aa98,
  0x1283_5b01,
  0x2431_85be,
  0x550c_7dc3,
  0x72be_5d74,
  0x80de_b1fe,
  0x9bdc_06a7,
  0xc19b_f174,
  0xe49b_69c1,
  0xefbe_4786,
  0x0fc1_9dc6,
  0x240c_a1cc,
  0x2de9_2c6f,
  0x4a74_84aa,
  0x5cb0_a9dc,
  0x76f9_88da,
  0x983e_5152,
  0xa831_c66d,
  0xb003_27c8,
  0xbf59_7fc7,
  0xc6e0_0bf3,
  0xd5a7_9147,
  0x06ca_6351,
  0x1429_2967,
  0x27b7_0a85,
  0x2e1b_2138,
  0x4d2c_6dfc,
  0x5338_0d13,
  0x650a_7354,
  0x766a_0abb,
  0x81c2_c92e,
  0x9272_2c85,
  0xa2bf_e8a1,
  0xa81a_664b,
  0xc24b_8b70,
  0xc76c_51a3,
  0xd192_e819,
  0xd699_0624,
  0xf40e_3585,
  0x106a_a070,
  0x19a4_c116,
  0x1e37_6c08,
  0x2748_774c,
  0x34b0_bcb5,
  0x391c_0cb3,
  0x4ed8_aa4a,
  0x5b9c_ca4f,
  0x682e_6ff3,
  0x748f_82ee,
  0x78a5_636f,
  0x84c8_7814,
  0x8cc7_0208,
  0x90be_fffa,
  0xa450_6ceb,
  0xbef9_a3f7,
  0xc671_78f2,
)

/** The same of the square roots of the first 8. */
const BEGINNING = Uint32Array.of(
  0x6a09_e667,
  0xbb67_ae85,
  0x3c6e_f372,
  0xa54f_f53a,
  0x510e_527f,
  0x9b05_688c,
  0x1f83_d9ab,
  0x5be0_cd19,
)

const BLOCK_BYTES = 64

/** @source sha2 (6.2) */
export function sha256(): Sha256 {
  const state = Int32Array.from(BEGINNING)
  const words = new Int32Array(64)
  const block = new Uint8Array(BLOCK_BYTES)
  const blockView = new DataView(block.buffer)
  let filled = 0
  let length = 0
  const add = (bytes: Uint8Array): void => {
    length += bytes.length
    let at = 0
    if (filled > 0) {
      at = Math.min(bytes.length, BLOCK_BYTES - filled)
      block.set(bytes.subarray(0, at), filled)
      filled += at
      if (filled < BLOCK_BYTES) return
      addBlock(state, words, blockView, 0)
    }
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length)
    for (; at + BLOCK_BYTES <= bytes.length; at += BLOCK_BYTES) addBlock(state, words, view, at)
    filled = bytes.length - at
    block.set(bytes.subarray(at))
  }
  return {
    add,
    end: () => {
      const bits = BigInt(length) * 8n
      const zeros = (2 * BLOCK_BYTES - 9 - (length % BLOCK_BYTES)) % BLOCK_BYTES
      const tail = new Uint8Array(1 + zeros + 8)
      tail[0] = 0x80
      new DataView(tail.buffer).setBigUint64(1 + zeros, bits)
      add(tail)
      const hash = new DataView(new ArrayBuffer(32))
      state.forEach((word, at) => hash.setInt32(4 * at, word))
      return new Uint8Array(hash.buffer)
    },
  }
}

function addBlock(state: Int32Array, words: Int32Array, view: DataView, start: number): void {
  for (let at = 0; at < 16; at++) words[at] = view.getInt32(start + 4 * at)
  for (let at = 16; at < 64; at++) {
    const two = words[at - 2] ?? 0
    const fifteen = words[at - 15] ?? 0
    const s1 = turned(two, 17) ^ turned(two, 19) ^ (two >>> 10)
    const s0 = turned(fifteen, 7) ^ turned(fifteen, 18) ^ (fifteen >>> 3)
    words[at] = s1 + (words[at - 7] ?? 0) + s0 + (words[at - 16] ?? 0)
  }
  let a = state[0] ?? 0
  let b = state[1] ?? 0
  let c = state[2] ?? 0
  let d = state[3] ?? 0
  let e = state[4] ?? 0
  let f = state[5] ?? 0
  let g = state[6] ?? 0
  let h = state[7] ?? 0
  for (let at = 0; at < 64; at++) {
    const sum1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)
    const choice = (e & f) ^ (~e & g)
    const t1 = (((h + sum1) | 0) + ((choice + (ROUNDS[at] ?? 0)) | 0) + (words[at] ?? 0)) | 0
    const sum0 = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)
    const majority = (a & b) ^ (a & c) ^ (b & c)
    h = g
    g = f
    f = e
    e = (d + t1) | 0
    d = c
    c = b
    b = a
    a = (t1 + sum0 + majority) | 0
  }
  state[0] = (state[0] ?? 0) + a
  state[1] = (state[1] ?? 0) + b
  state[2] = (state[2] ?? 0) + c
  state[3] = (state[3] ?? 0) + d
  state[4] = (state[4] ?? 0) + e
  state[5] = (state[5] ?? 0) + f
  state[6] = (state[6] ?? 0) + g
  state[7] = (state[7] ?? 0) + h
}

function turned(word: number, by: number): number {
  return (word >>> by) | (word << (32 - by))
}
