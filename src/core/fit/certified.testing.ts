/** A set of certified reference data: a model, where to start from, and what must come out. */
export type CertifiedSet = Readonly<{
  model: (parameters: readonly number[], x: number) => number
  starts: readonly (readonly number[])[]
  parameters: readonly number[]
  sds: readonly number[]
  squares: number
  residualSd: number
  points: readonly Readonly<{ x: number; y: number }>[]
}>

const RISING: CertifiedSet['model'] = ([b1 = 0, b2 = 0], x) => b1 * (1 - Math.exp(-b2 * x))

/** Data by Misra (1978), Box, Hunter and Hunter (1978) and Thurber (1979), as NIST publishes them. */
export const CERTIFIED: Readonly<Record<'Misra1a' | 'BoxBOD' | 'Thurber', CertifiedSet>> = {
  Misra1a: {
    model: RISING,
    starts: [
      [500, 0.0001],
      [250, 0.0005],
    ],
    parameters: [2.3894212918e2, 5.5015643181e-4],
    sds: [2.7070075241, 7.2668688436e-6],
    squares: 1.2455138894e-1,
    residualSd: 1.018787633e-1,
    points: pointsFrom(`
      77.6:10.07 114.9:14.73 141.1:17.94 190.8:23.93 239.9:29.61 289.0:35.18 332.8:40.02
      378.4:44.82 434.8:50.76 477.3:55.05 536.8:61.01 593.1:66.40 689.1:75.47 760.0:81.78`),
  },
  BoxBOD: {
    model: RISING,
    starts: [
      [1, 1],
      [100, 0.75],
    ],
    parameters: [2.1380940889e2, 5.4723748542e-1],
    sds: [1.2354515176e1, 1.0455993237e-1],
    squares: 1.1680088766e3,
    residualSd: 1.7088072423e1,
    points: pointsFrom('1:109 2:149 3:149 5:191 7:213 10:224'),
  },
  Thurber: {
    model: ([b1 = 0, b2 = 0, b3 = 0, b4 = 0, b5 = 0, b6 = 0, b7 = 0], x) =>
      (b1 + x * (b2 + x * (b3 + x * b4))) / (1 + x * (b5 + x * (b6 + x * b7))),
    starts: [
      [1000, 1000, 400, 40, 0.7, 0.3, 0.03],
      [1300, 1500, 500, 75, 1, 0.4, 0.05],
    ],
    parameters: [
      1.28813968e3, 1.4910792535e3, 5.8323836877e2, 7.5416644291e1, 9.6629502864e-1,
      3.9797285797e-1, 4.9727297349e-2,
    ],
    sds: [
      4.6647963344, 3.9571156086e1, 2.8698696102e1, 5.567537027, 3.1333340687e-2, 1.4984928198e-2,
      6.5842344623e-3,
    ],
    squares: 5.6427082397e3,
    residualSd: 1.3714600784e1,
    points: pointsFrom(`
      -3.067:80.574 -2.981:84.248 -2.921:87.264 -2.912:87.195 -2.840:89.076 -2.797:89.608
      -2.702:89.868 -2.699:90.101 -2.633:92.405 -2.481:95.854 -2.363:100.696 -2.322:101.060
      -1.501:401.672 -1.460:390.724 -1.274:567.534 -1.212:635.316 -1.100:733.054 -1.046:759.087
      -0.915:894.206 -0.714:990.785 -0.566:1090.109 -0.545:1080.914 -0.400:1122.643
      -0.309:1178.351 -0.109:1260.531 -0.103:1273.514 0.010:1288.339 0.119:1327.543
      0.377:1353.863 0.790:1414.509 0.963:1425.208 1.006:1421.384 1.115:1442.962 1.572:1464.350
      1.841:1468.705 2.047:1447.894 2.200:1457.628`),
  },
}

/** The Norris set: a line, 36 points. */
export const NORRIS: Readonly<{
  points: CertifiedSet['points']
  coefficients: readonly number[]
  sds: readonly number[]
  residualSd: number
}> = {
  points: pointsFrom(`
    0.2:0.1 337.4:338.8 118.2:118.1 884.6:888.0 10.1:9.2 226.5:228.1 666.3:668.5 996.3:998.5
    448.6:449.1 777.0:778.9 558.2:559.2 0.4:0.3 0.6:0.1 775.5:778.1 666.9:668.8 338.0:339.3
    447.5:448.9 11.6:10.8 556.0:557.7 228.1:228.3 995.8:998.0 887.6:888.8 120.2:119.6 0.3:0.3
    0.3:0.6 556.8:557.6 339.1:339.3 887.2:888.0 999.0:998.5 779.0:778.9 11.1:10.2 118.3:117.6
    229.2:228.9 669.1:668.4 448.9:449.2 0.5:0.2`),
  coefficients: [-0.262323073774029, 1.00211681802045],
  sds: [0.232818234301152, 0.429796848199937e-3],
  residualSd: 0.884796396144373,
}

function pointsFrom(text: string): CertifiedSet['points'] {
  return text
    .trim()
    .split(/\s+/)
    .map((pair) => pair.split(':').map(Number))
    .map(([x = Number.NaN, y = Number.NaN]) => ({ x, y }))
}
