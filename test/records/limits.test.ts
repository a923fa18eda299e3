import { describe, expect, it } from 'vitest';
import { LIMITS, type LimitedField, longest, overLimit } from '../../src/records/limits.ts';
import { readPerson, readPlace } from '../../src/records/place.ts';
import { DEFAULT_SETTINGS, MOST_DAYS, mayPin, settingsRefused } from '../../src/records/settings.ts';

describe('a limit', () => {
  it('lets its own length pass and refuses one more, saying which and how long', () => {
    for (const field of Object.keys(LIMITS) as LimitedField[]) {
      const limit = LIMITS[field];
      expect(overLimit({ [field]: limit })).toBeNull();
      expect(overLimit({ [field]: limit + 1 })).toEqual({ kind: 'over', field, limit, length: limit + 1 });
    }
  });

  it('holds for the longest of several texts', () => {
    expect(longest(['a', 'abc', ''])).toBe(3);
    expect(longest([])).toBe(0);
  });
});

describe('an id', () => {
  it('is taken as the platform writes it', () => {
    expect(readPlace('discord:1234567890')).toBe('discord:1234567890');
    expect(readPerson('U0ANN')).toBe('U0ANN');
  });

  it('is refused when blank, broken or endless', () => {
    for (const text of ['', ' ', 'a b', 'a\nb', 'a\0b', '\ud800', 'x'.repeat(101)]) {
      expect(readPlace(text)).toBeNull();
      expect(readPerson(text)).toBeNull();
    }
  });
});

describe('settings', () => {
  const ann = readPerson('ann');
  const bob = readPerson('bob');
  if (ann === null || bob === null) throw new Error('both are ids');
  const settings = { ...DEFAULT_SETTINGS, pinRoles: ['moderator'], pinPeople: [ann] };

  it('let named people and roles pin, and nobody else', () => {
    expect(mayPin(settings, ann, [])).toBe(true);
    expect(mayPin(settings, bob, ['rider', 'moderator'])).toBe(true);
    expect(mayPin(settings, bob, ['rider'])).toBe(false);
    expect(mayPin(DEFAULT_SETTINGS, ann, ['moderator'])).toBe(false);
  });

  it('take whole days within their range, or none', () => {
    expect(settingsRefused({ ...settings, receiptDays: null, jobDays: MOST_DAYS })).toBeNull();
    for (const days of [0, -1, 1.5, Number.NaN, MOST_DAYS + 1, Number.POSITIVE_INFINITY]) {
      expect(settingsRefused({ ...settings, jobDays: days })).toEqual({
        kind: 'days',
        field: 'jobDays',
        low: 1,
        high: MOST_DAYS,
      });
    }
  });

  it('take as many roles and people together as the limit says', () => {
    const roles = Array.from({ length: LIMITS.pinners }, (_, at) => `role-${at}`);
    expect(settingsRefused({ ...settings, pinPeople: [], pinRoles: roles })).toBeNull();
    expect(settingsRefused({ ...settings, pinRoles: roles })).toMatchObject({ kind: 'over', field: 'pinners' });
  });
});
