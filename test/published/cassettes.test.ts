import { describe, expect, it } from 'vitest';
import { sprocketList } from '../../src/solve/sprocket-list.ts';

// As the texts and spec sheets print them.
const PRINTED = [
  '12-14-16-18-21-24-28',
  '12-14-16-18-21-26-32',
  '14-16-18-20-22-24-28',
  '11-13-15-17-19-21-24-28',
  '11-13-15-17-20-23-26-30',
  '11-13-15-18-21-24-28-32',
  '11-13-15-18-21-24-28-34',
  '12-13-15-17-19-21-23-25',
  '11-12-13-14-15-16-17-19-21-23',
  '11-13-15-17-19-21-24-28-32-36',
  '11-12-13-14-15-17-19-21-23-25-28',
  '11-13-15-17-19-21-23-25-27-30-34',
  '11-13-15-17-19-21-23-25-28-32-36',
  '11-13-15-17-19-21-24-27-31-35-40',
  '11-13-15-17-19-21-24-28-32-37-42',
  '11-13-15-18-21-24-28-32-36-42-50',
  '11-13-15-18-21-24-28-33-39-45-51',
  '10-11-12-13-14-15-17-19-21-24-28-33',
  '10-11-12-13-15-17-19-21-24-28-32-36',
  '10-12-14-16-18-21-24-28-32-36-40-45',
  '10-12-14-16-18-21-24-28-33-39-45-51',
  '10-12-14-16-18-21-24-28-32-36-42-52',
  '11-12-13-14-15-17-19-21-24-27-30-34',
  '9-10-11-12-13-14-16-18-21-25-30-36-42',
] as const;

describe('CassetteSheets: whole cassettes', () => {
  it('prints twenty-four lists', () => {
    expect(PRINTED).toHaveLength(24);
  });

  it.each(PRINTED)('gives %s from its ends and its count', (printed) => {
    const sprockets = printed.split('-').map(Number);
    const list = sprocketList({
      smallestTeeth: Math.min(...sprockets),
      largestTeeth: Math.max(...sprockets),
      speeds: sprockets.length,
      sprockets: null,
    });
    expect(list).toEqual({ kind: 'found', sprockets, from: 'published' });
  });
});
