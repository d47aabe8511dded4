import { expect, test } from 'vitest'
import { firstState, type Ground, movesOf, nextPlace, wantedOf } from './placeState.ts'

const laid = (film: string, xMm: number, yMm: number, turned = false) => ({
  film,
  xMm,
  yMm,
  turned,
})
const ground: Ground = {
  frame: { insideWidthMm: 500, insideHeightMm: 700 },
  films: [
    { widthMm: 210, heightMm: 297 },
    { widthMm: 80, heightMm: 60 },
  ],
  best: [laid('a', 145.5, 201.5), laid('b', 20, 30)],
  kept: [laid('b', 22, 33), laid('a', 100, 180)],
}

test('what was kept is wanted first, film by film, whatever its order', () => {
  expect(wantedOf(firstState(ground), ground).map(({ xMm }) => xMm)).toEqual([100, 22])
  expect(firstState({ kept: null }).wanted).toBe('best')
})

test('keys step from whole millimetres, a turn is about the middle, and no sheet is lost', () => {
  const best = nextPlace(firstState(ground), { kind: 'best' }, ground)
  const stepped = nextPlace(best, { kind: 'step', xMm: 1, yMm: -10 }, ground)
  expect(wantedOf(stepped, ground)).toEqual([laid('a', 147, 192), laid('b', 20, 30)])
  const turned = nextPlace(stepped, { kind: 'turn' }, ground)
  // 297 wide about the same middle: 147 + 105 - 148.5, 192 + 148.5 - 105
  expect(wantedOf(turned, ground)[0]).toEqual(laid('a', 103.5, 235.5, true))
  const gone = nextPlace(turned, { kind: 'put', xMm: 9000, yMm: -9000 }, ground)
  expect(wantedOf(gone, ground)[0]).toMatchObject({ xMm: 480, yMm: -190 })
})

test('where a film lies now is moved by itself, and the way from there is told as a hand moves', () => {
  const elsewhere = nextPlace(firstState(ground), { kind: 'elsewhere' }, ground)
  const put = nextPlace(elsewhere, { kind: 'put', xMm: 138, yMm: 168 }, ground)
  expect(wantedOf(put, ground)[0]).toMatchObject({ xMm: 100, yMm: 180 })
  const [sides] = ground.films
  const [now, wanted] = [put.now?.[0], wantedOf(put, ground)[0]]
  if (sides === undefined || now === undefined || wanted === undefined) throw new Error('no film')
  expect(movesOf(now, wanted, sides)).toEqual([
    { way: 'left', mm: 38 },
    { way: 'toward', mm: 12 },
  ])
  expect(movesOf(wanted, { ...wanted, yMm: 179.6 }, sides)).toEqual([])
  expect(movesOf(wanted, { ...wanted, turned: true }, sides)[0]).toEqual({ way: 'turn', mm: 0 })
})
