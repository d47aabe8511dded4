import type { ArtworkFilm } from '../../store/artworks.ts'

/** `1-red`: the order of printing, and what of the ink's name every disk and header takes. */
export function fileStem({ place, ink }: Pick<ArtworkFilm, 'place' | 'ink'>): string {
  const plain = ink
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
  return [String(place), plain.slice(0, 40)].filter((part) => part !== '').join('-')
}
