import { create } from 'qrcode'
import type { CodeSquares } from '../../workflow/papers/qrCode.ts'

/**
 * A text as a QR code that is still read with a seventh of it soiled (level M).
 *
 * @param text at most 2,000 characters
 */
export function codeSquaresOf(text: string): CodeSquares {
  const { modules } = create(text, { errorCorrectionLevel: 'M' })
  return { side: modules.size, isDark: (row, column) => modules.get(row, column) === 1 }
}
