import { expect, test } from 'vitest'
import { textOf } from './fileText.ts'

// bytes by hand, from memory of the charts of Unicode and of windows-1252: Å is U+00C5, C3 85 in UTF-8
// and C5 in windows-1252
test('a table’s file is read as it was written: UTF-8 with and without a mark, UTF-16, windows-1252', () => {
  expect(textOf(Uint8Array.of(0xc3, 0x85, 0x3b))).toBe('Å;')
  expect(textOf(Uint8Array.of(0xef, 0xbb, 0xbf, 0xc3, 0x85))).toBe('Å')
  expect(textOf(Uint8Array.of(0xff, 0xfe, 0xc5, 0x00, 0x3b, 0x00))).toBe('Å;')
  expect(textOf(Uint8Array.of(0x42, 0xc5, 0x3b))).toBe('BÅ;')
})

test('what is no text is none', () => {
  expect(textOf(Uint8Array.of(0x50, 0x4b, 0x03, 0x04, 0x00, 0x00))).toBeNull()
})
