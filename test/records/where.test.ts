import { describe, expect, it } from 'vitest';
import { whereKept } from '../../src/records/where.ts';

describe('where things are kept', () => {
  it.each([
    [{}, { path: 'data/records.db' }],
    [{ RINGWRIGHT_DATA: '/srv/club' }, { path: '/srv/club/records.db' }],
    [{ DATABASE_URL: 'postgres://localhost/club' }, { url: 'postgres://localhost/club' }],
    [{ DATABASE_URL: 'postgres://localhost/club', RINGWRIGHT_DATA: '/srv/club' }, { url: 'postgres://localhost/club' }],
    [{ DATABASE_URL: ' ', RINGWRIGHT_DATA: '' }, { path: 'data/records.db' }],
  ])('%j: %j', (env, where) => {
    expect(whereKept(env)).toEqual(where);
  });
});
