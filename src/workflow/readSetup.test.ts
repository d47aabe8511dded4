import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Failure } from '../core/failure.ts'
import { setupFrom, setupFromJson } from './readSetup.ts'
import { DEFAULT_SETUP } from './setup.ts'

function failure(value: unknown): Readonly<{ message: string; field: string | undefined }> {
  try {
    setupFrom(value)
  } catch (error) {
    if (error instanceof Failure) return { message: error.message, field: error.field }
    throw error
  }
  throw new Error('it was taken')
}

describe('what is given', () => {
  test('an empty setup is the documented default, and so is the contract example', () => {
    const example = `{
      "lamp":     { "distanceMm": 800, "sourceRadiusMm": 20 },
      "contact":  { "gapUm": 5, "filmBaseUm": 100, "filmBaseDensity": 0, "imageSide": "against emulsion" },
      "emulsion": { "model": "absorbing", "gelDoseLu": 6, "penetrationDepthUm": 37, "thicknessUm": 80, "anchorDepthUm": 20, "refractiveIndex": 1.5 },
      "scatter":  { "lengthUm": 40, "weight": 0.12 },
      "fabric":   { "threadsPerCm": 90, "threadUm": 48 } }`
    expect(setupFromJson('{}')).toEqual(DEFAULT_SETUP)
    expect(setupFromJson(example)).toEqual(DEFAULT_SETUP)
  })

  test('every number lands where it belongs', () => {
    const setup = setupFrom({
      lamp: { kind: 'point', distanceMm: 701, sourceRadiusMm: 11 },
      contact: { gapUm: 12, filmBaseUm: 130, filmBaseDensity: 0.14, imageSide: 'away' },
      emulsion: {
        model: 'absorbing',
        gelDoseLu: 7.5,
        penetrationDepthUm: 31,
        thicknessUm: 92,
        anchorDepthUm: 21,
        refractiveIndex: 1.53,
      },
      scatter: { lengthUm: 27, weight: 0.05 },
      fabric: { threadsPerCm: 77, threadUm: 55 },
    })
    expect(setup).toEqual({
      lamp: { kind: 'point', distanceMm: 701, sourceRadiusMm: 11 },
      contact: { gapUm: 12, filmBaseUm: 130, filmBaseDensity: 0.14, imageSide: 'away' },
      emulsion: {
        model: 'absorbing',
        gelDoseLu: 7.5,
        penetrationDepthUm: 31,
        thicknessUm: 92,
        anchorDepthUm: 21,
      },
      refractiveIndex: 1.53,
      scatter: { lengthUm: 27, weight: 0.05 },
      fabric: { threadsPerCm: 77, threadUm: 55 },
    })
  })

  test('the anchor depth is a quarter of the thickness unless given', () => {
    expect(setupFrom({ emulsion: { thicknessUm: 145 } }).emulsion.anchorDepthUm).toBe(36.25)
    const bleaching = { model: 'bleaching', thicknessUm: 110 }
    expect(setupFrom({ emulsion: bleaching }).emulsion.anchorDepthUm).toBe(27.5)
  })

  test('a bank has a distance of its own and no source radius', () => {
    expect(setupFrom({ lamp: { kind: 'bank' } }).lamp).toEqual({ kind: 'bank', distanceMm: 80 })
    const lamp = { kind: 'bank', distanceMm: 65 }
    expect(setupFrom({ lamp }).lamp).toEqual(lamp)
  })

  test('a bleaching emulsion takes its own four numbers', () => {
    const emulsion = { model: 'bleaching', aPerUm: 0.05, bPerUm: 0.02, cPerLu: 0.11, gelShare: 0.4 }
    expect(setupFrom({ emulsion }).emulsion).toMatchObject(emulsion)
  })
})

describe('what is refused, by the name of the key', () => {
  test.each([
    [
      { lamp: { distanceMm: '800mm' } },
      'lamp.distanceMm',
      'a number from 5 to 10000 mm, like 800; the setup says "800mm".',
    ],
    [{ lamp: { distanceMm: -800 } }, 'lamp.distanceMm', 'the setup says -800.'],
    [{ lamp: { distanceMm: null } }, 'lamp.distanceMm', 'the setup says null.'],
    [{ lamp: { distanceMm: [800] } }, 'lamp.distanceMm', 'the setup says [800].'],
    [{ lamp: { sourceRadiusMm: Number.NaN } }, 'lamp.sourceRadiusMm', 'a number too large to hold'],
    [
      { lamp: { distance: 800 } },
      'lamp.distance',
      'The setup has no key lamp.distance. Did you mean distanceMm?',
    ],
    [
      { lamp: { kind: 'bank', sourceRadiusMm: 20 } },
      'lamp.sourceRadiusMm',
      'a bank has no source radius',
    ],
    [{ lamp: { kind: 'tubes' } }, 'lamp.kind', '"point" or "bank"; the setup says "tubes".'],
    [{ lamp: 800 }, 'lamp', 'lamp must be an object in braces, like {}; it is 800.'],
    [{ contact: { gapUm: 5001 } }, 'contact.gapUm', 'from 0 to 5000 um'],
    [{ contact: { gapMm: 0.005 } }, 'contact.gapMm', 'Did you mean gapUm?'],
    [{ contact: { imageSide: 'up' } }, 'contact.imageSide', '"against emulsion" or "away"'],
    [{ contact: { filmBaseDensity: -0.2 } }, 'contact.filmBaseDensity', 'from 0 to 3 D'],
    [{ contact: null }, 'contact', 'it is null'],
    [{ emulsion: { model: 'dual' } }, 'emulsion.model', '"absorbing" or "bleaching"'],
    [
      { emulsion: { model: 'bleaching', gelDoseLu: 6 } },
      'emulsion.gelDoseLu',
      'belongs to the absorbing model',
    ],
    [{ emulsion: { cPerLu: 0.1 } }, 'emulsion.cPerLu', 'belongs to the bleaching model'],
    [{ emulsion: { gelDoseLu: 0 } }, 'emulsion.gelDoseLu', 'the setup says 0.'],
    [
      { emulsion: { thicknessUm: 60, anchorDepthUm: 61 } },
      'emulsion.anchorDepthUm',
      'not be deeper than',
    ],
    [{ emulsion: { refractiveIndex: 0.9 } }, 'emulsion.refractiveIndex', 'from 1 to 3, like 1.5'],
    [{ emulsion: [] }, 'emulsion', 'it is []'],
    [{ scatter: { weight: 1.2 } }, 'scatter.weight', 'from 0 to 1, like 0.12'],
    [{ scatter: { lengthUm: true } }, 'scatter.lengthUm', 'the setup says true.'],
    [
      { fabric: { threadsPerCm: 120, threadUm: 84 } },
      'fabric.threadUm',
      '120 threads a cm stand 83 um apart',
    ],
    [{ fabric: { threadUm: 1e9 } }, 'fabric.threadUm', 'from 10 to 1000 um'],
    [{ fabrik: {} }, 'fabrik', 'The setup has no key fabrik. Did you mean fabric?'],
    [{ refractiveIndex: 1.5 }, 'refractiveIndex', 'Known here: lamp, contact, emulsion'],
    [{ ['x'.repeat(5000)]: 1 }, `${'x'.repeat(57)}…`, 'has no key'],
  ])('%j', (value, field, words) => {
    const refused = failure(value)
    expect(refused.field).toBe(field)
    expect(refused.message).toContain(words)
    expect(refused.message).not.toContain('\n')
  })

  test.each([[null], [[]], ['setup'], [42]])('%j is no setup at all', (value) => {
    expect(failure(value).message).toContain('The setup must be an object in braces')
  })

  test('a gap and a lamp that blur over centimetres are no exposure', () => {
    const wide = { lamp: { distanceMm: 100, sourceRadiusMm: 1000 }, contact: { gapUm: 5000 } }
    expect(failure(wide)).toMatchObject({ field: 'contact.gapUm' })
    expect(failure({ lamp: { kind: 'bank' }, contact: { gapUm: 3000 } }).message).toContain('blur')
  })

  test('a key that names an inherited property is unknown like any other', () => {
    const text = '{ "lamp": { "__proto__": { "distanceMm": 5 }, "constructor": 1 } }'
    expect(() => setupFromJson(text)).toThrow('The setup has no key lamp.__proto__')
  })

  test('a megabyte is another file, and 1e400 is too large to hold', () => {
    expect(() => setupFromJson(' '.repeat(1_000_001))).toThrow('longer than a megabyte')
    expect(() => setupFromJson('{"scatter":{"lengthUm":1e400}}')).toThrow('too large to hold')
  })
})

test('invariant: whatever JSON comes, the answer is a setup or one sentence', () => {
  const key = fc.constantFrom('lamp', 'contact', 'emulsion', 'scatter', 'fabric', 'other')
  const inner = fc.constantFrom('kind', 'distanceMm', 'gapUm', 'model', 'weight', 'threadUm', 'x')
  const value = fc.oneof(fc.double(), fc.constantFrom('bank', 'bleaching', 'away'), fc.jsonValue())
  const setups = fc.dictionary(key, fc.oneof(fc.dictionary(inner, value), fc.jsonValue()))
  fc.assert(
    fc.property(setups, (given) => {
      try {
        expect(setupFrom(given).emulsion.thicknessUm).toBeGreaterThan(0)
      } catch (error) {
        expect(error).toBeInstanceOf(Failure)
        expect(String(error)).not.toContain('\n')
      }
    }),
    { seed: 20263, numRuns: 1000 },
  )
})
