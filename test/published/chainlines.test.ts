import { describe, expect, it } from 'vitest';
import {
  directMountLineMm,
  dropoutToRingMm,
  frontLineMm,
  hubLines,
  lineVerdict,
  rearLineMm,
  sprocketLinesMm,
  sprocketSpacing,
} from '../../src/solve/chainline.ts';
import { DRIVE_EFFICIENCY, MADE_LINES, MEASURED_REAR } from '../../src/tables/chainlines.ts';

describe('a rider works out ten sprockets on a 130 mm hub', () => {
  // Printed: 65 − 3.0 − 0.8 = 61.2 for the smallest, then 3.95 less each.
  const printed = [61.2, 57.25, 53.3, 49.35, 45.4, 41.45, 37.5, 33.55, 29.6, 25.65];
  const stackMm = sprocketSpacing(10)?.stackMm ?? 0;
  const rearMm = rearLineMm(MEASURED_REAR.hubMm, MEASURED_REAR.lockGapMm, stackMm);

  it('puts the middle at 43.4', () => expect(Math.abs(rearMm - 43.4)).toBeLessThanOrEqual(0.05));

  it('puts every sprocket where the page has it', () => {
    const lines = sprocketLinesMm(rearMm, 10, 3.95);
    expect(lines).toHaveLength(printed.length);
    for (const [index, line] of printed.entries()) {
      expect(Math.abs((lines[index] ?? 0) - line)).toBeLessThanOrEqual(0.005 + 1e-9);
    }
  });

  it('reads the hub back as 43.4', () => expect(hubLines(130)?.rearMm).toBe(43.4));
});

describe('StackTable, TiBlog and SecondGear: stack widths of cassettes', () => {
  it.each([
    [7, 31.9],
    [8, 35.4],
    [9, 36.5],
    [10, 37.2],
  ])('%i sprockets are %f mm wide', (speeds, widthMm) => {
    // 10: 37.15 exactly, which the table rounds up; the author of the worked example notes the same 0.05.
    expect(Math.abs((sprocketSpacing(speeds)?.stackMm ?? 0) - widthMm)).toBeLessThanOrEqual(0.05 + 1e-9);
  });
});

describe('BrownSpacing: regular 5 and 6 speed', () => {
  it('prints 24.0 mm over all five sprockets', () => {
    expect(sprocketSpacing(5)).toMatchObject({ stackMm: 24, from: 'published' });
  });

  it('prints 5.5 mm from sprocket to sprocket for six as for five', () => {
    expect(sprocketSpacing(6)).toMatchObject({ spacingMm: 5.5, from: 'published' });
  });
});

describe('ChainlineThreads: single rings on road hubs', () => {
  // Printed: track and road single 42 to 42.5, road single on a four-arm 110 circle 44.5.
  it('prints 42 to 44.5', () => expect(hubLines(130)).toMatchObject({ lowMm: 42, highMm: 44.5 }));
});

describe('a fixed-gear forum', () => {
  it('measures 42.5 from a 30 mm tube and a 27.5 mm gap', () => expect(frontLineMm(30, 27.5)).toBe(42.5));
  it('finds a ring at 51 on 135 mm 16.5 inside the dropout', () => expect(dropoutToRingMm(135, 51)).toBe(16.5));
});

describe('hubs in print', () => {
  it('142 mm has its cassette at 71 − 22 − 2.5 − 3.5 = 43.0', () => expect(hubLines(142)?.rearMm).toBe(43));
  it('142 keeps the cassette where 135 has it', () => expect(hubLines(135)?.rearMm).toBe(hubLines(142)?.rearMm));
  it('148 moves it out by 3', () => expect((hubLines(148)?.rearMm ?? 0) - (hubLines(142)?.rearMm ?? 0)).toBe(3));
  it.each([
    [148, 52],
    [148, 55],
    [157, 55],
    [157, 57],
  ])('a ring for %i mm is made at %i', (hubMm, lineMm) => {
    const lines = hubLines(hubMm);
    expect(lines?.lowMm).toBeLessThanOrEqual(lineMm);
    expect(lines?.highMm).toBeGreaterThanOrEqual(lineMm);
  });
  it('a crank factory makes four lines, each a quarter of a millimetre off', () => {
    expect(MADE_LINES.map((row) => row.lineMm)).toEqual([49.25, 50.25, 52.25, 55.25]);
  });
});

describe('ring in line with the middle of the cassette, a 2012 thread', () => {
  it.each([
    [2, 'good'],
    [-2, 'good'],
    [5, 'acceptable'],
    [5.1, 'poor'],
  ])('%f mm off is %s', (offsetMm, verdict) => {
    expect(lineVerdict({ offsetMm, worstDeg: null, onMadeLine: false })).toBe(verdict);
  });
});

describe('offsets of direct-mount rings in one family', () => {
  it.each([
    [6, 135],
    [6, 142],
    [3, 148],
    [0, 157],
  ])('%i mm is made for %i mm hubs', (offsetMm, hubMm) => {
    const lines = hubLines(hubMm);
    expect(directMountLineMm(offsetMm)).toBeGreaterThanOrEqual(lines?.lowMm ?? 99);
    expect(directMountLineMm(offsetMm)).toBeLessThanOrEqual(lines?.highMm ?? 0);
  });
});

describe('Spicer and others 2001', () => {
  it('measures 80.9 to 98.6 %', () => expect(DRIVE_EFFICIENCY).toMatchObject({ lowPct: 80.9, highPct: 98.6 }));
});
