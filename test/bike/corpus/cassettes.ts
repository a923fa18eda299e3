import { asks, list, type Phrasing, range, reads, stops } from './phrasing.ts';

const WIDE_TEN = list(11, 13, 15, 17, 19, 21, 24, 28, 32, 36);
const ROAD_TEN = list(11, 12, 13, 14, 15, 17, 19, 21, 23, 25);

/** The cassette that is fitted now. A full list tells the count too. */
const FITTED: readonly Phrasing[] = [
  reads('11-36', { cassette: range(11, 36) }),
  reads('36-11', { cassette: range(11, 36) }),
  reads('36−11', { cassette: range(11, 36) }),
  reads('11–36', { cassette: range(11, 36) }),
  reads('11—36', { cassette: range(11, 36) }),
  reads('11/36', { cassette: range(11, 36) }),
  reads('11-36t', { cassette: range(11, 36) }),
  reads('11t-36t', { cassette: range(11, 36) }),
  reads('11T–36T', { cassette: range(11, 36) }),
  reads('10-42', { cassette: range(10, 42) }),
  reads('10-50T', { cassette: range(10, 50) }),
  reads('9-50', { cassette: range(9, 50) }),
  reads('12-25', { cassette: range(12, 25) }),
  reads('11-28', { cassette: range(11, 28) }),
  reads('13-26', { cassette: range(13, 26) }),
  reads('14-28', { cassette: range(14, 28) }),
  reads('an eleven thirty-six', { cassette: range(11, 36) }),
  reads('eleven thirty six', { cassette: range(11, 36) }),
  reads('an eleven forty-two cassette', { cassette: range(11, 42) }),
  reads('ten fifty cassette', { cassette: range(10, 50) }),
  reads('cassette 11-36', { cassette: range(11, 36) }),
  reads('cassette is 11-34', { cassette: range(11, 34) }),
  reads('cassette: 12-36', { cassette: range(12, 36) }),
  reads('cassette 11 to 36', { cassette: range(11, 36) }),
  reads('cassette 36/11', { cassette: range(11, 36) }),
  reads('11-32 cassette', { cassette: range(11, 32) }),
  reads('rear 11-36', { cassette: range(11, 36) }),
  reads('11-36 at the back', { cassette: range(11, 36) }),
  reads('cogs 11-34', { cassette: range(11, 34) }),
  reads('freewheel 14-28', { cassette: range(14, 28) }),
  reads('14-34 freewheel', { cassette: range(14, 34) }),
  reads('11-42 with the dinner plate', { cassette: range(11, 42) }),
  reads('36/22 11/36', { rings: [36, 22], cassette: range(11, 36) }),
  reads('36/22 36/11', { rings: [36, 22], cassette: range(11, 36) }),
  reads('12-27 ten speed', { cassette: range(12, 27), speeds: 10 }),
  reads('11-13-15-17-19-21-24-28-32-36', { cassette: WIDE_TEN }, { may: { speeds: 10 } }),
  reads('36-32-28-24-21-19-17-15-13-11', { cassette: WIDE_TEN }, { may: { speeds: 10 } }),
  reads('11–13–15–17–19–21–24–28–32–36T', { cassette: WIDE_TEN }, { may: { speeds: 10 } }),
  reads('11/12/13/14/15/17/19/21/23/25', { cassette: ROAD_TEN }, { may: { speeds: 10 } }),
  reads('cassette=11,12,13,14,15,17,19,21,23,25', { cassette: ROAD_TEN }, { may: { speeds: 10 } }),
  reads('cassette 11-12-13-14-15-17-19-21-23-25', { cassette: ROAD_TEN }, { may: { speeds: 10 } }),
  reads('2x10 11-13-15-17-19-21-24-28-32-36', { speeds: 10, cassette: WIDE_TEN }),
  reads('2x11 10-12-14-16-18-21-24-28-32-36-42', {
    speeds: 11,
    cassette: list(10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 42),
  }),
  reads('speeds=7 14-16-18-20-22-24-28', { speeds: 7, cassette: list(14, 16, 18, 20, 22, 24, 28) }),
];

/** The cassette that is wanted. */
const WANTED: readonly Phrasing[] = [
  reads('new cassette 11-46', { newCassette: range(11, 46) }),
  reads('add 11-46', { newCassette: range(11, 46) }),
  reads('wider cassette 11-42', { newCassette: range(11, 42) }),
  reads('want an 11-46 cassette', { newCassette: range(11, 46) }),
  reads('11-36 to 11-46', { cassette: range(11, 36), newCassette: range(11, 46) }),
  reads('11-36 → 11-46', { cassette: range(11, 36), newCassette: range(11, 46) }),
  reads('cassette 11-34, new cassette 11-42', { cassette: range(11, 34), newCassette: range(11, 42) }),
  reads('11-36 newcassette=11-42', { cassette: range(11, 36), newCassette: range(11, 42) }),
  reads('36/22 11-36, 32t and a new cassette 11-46', {
    rings: [36, 22],
    cassette: range(11, 36),
    ringTeeth: 32,
    newCassette: range(11, 46),
  }),
];

const UNCLEAR: readonly Phrasing[] = [
  asks('36/11', ['rings', 'cassette']),
  asks('what fits 36/11?', ['rings', 'cassette']),
  asks('cassette=11-36 cassette=11-34', ['cassette']),
  asks('11-36 cassette=11-42', ['cassette']),
  asks('speeds=10 cassette=11-13-15-17-20-23-26-30-34', ['speeds', 'cassette']),
  asks('2x10 11-13-15-17-20-23-26-30-34', ['speeds', 'cassette']),
  asks('9 speed 11-12-13-14-15-17-19-21-23-25', ['speeds', 'cassette']),
  stops('cassette=11-13-12-17-19-21-24-28-32-36', 'cassette'),
  stops('11-13-19-17-15-21-24-28-32-36', 'cassette'),
];

export const CASSETTES: readonly Phrasing[] = [...FITTED, ...WANTED, ...UNCLEAR];
