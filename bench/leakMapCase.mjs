export const DPI = 720
/** A small lamp through the usual coat, halo 40 um. */
export const SPREAD = {
  source: { kind: 'disc', radiusUm: 1.46 },
  halo: { lengthUm: 40, weight: 0.12 },
}
