import sharp from 'sharp'

// One picture at a time, none kept: the decoder's memory stays that of a few rows.
sharp.cache(false)
sharp.concurrency(1)

export { sharp }
