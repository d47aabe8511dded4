/**
 * By what a name that people write is looked up: capitals, gaps and the way a letter's marks are
 * stored (é as one sign, or as e and an accent) do not matter.
 *
 * @source unicode-normal-forms
 */
export function plainName(name: string): string {
  return name.normalize('NFC').trim().toLowerCase().replace(/\s+/g, ' ')
}
