import { describe, expect, it } from 'vitest';
import { auditLines, readAudit, readSignatures, stopping } from './audit.ts';

/** As `npm audit --json` prints it, by its documentation ("auditReportVersion" 2), shortened to what is read. */
function report(severity: string): string {
  const via = [{ source: 1, name: 'x', title: 'Reads too much', url: 'https://x.example', severity, range: '<2.0.0' }];
  return JSON.stringify({
    auditReportVersion: 2,
    vulnerabilities: {
      x: { name: 'x', severity, isDirect: false, via, effects: ['y'], range: '<2.0.0', nodes: [], fixAvailable: true },
      y: {
        name: 'y',
        severity: 'low',
        isDirect: true,
        via: ['x'],
        effects: [],
        range: '*',
        nodes: [],
        fixAvailable: true,
      },
    },
    metadata: {},
  });
}

describe('what is known against packages', () => {
  it.each(['high', 'critical'])('stops a release where it is %s', (severity) => {
    expect(stopping(readAudit(report(severity)))).toEqual([{ name: 'x', severity, titles: ['Reads too much'] }]);
  });

  it.each(['moderate', 'low', 'info'])('is printed and stops nothing where it is %s', (severity) => {
    const audit = readAudit(report(severity));
    expect(stopping(audit)).toEqual([]);
    expect(auditLines('tools', audit)).toEqual([`tools: ${severity}: x: Reads too much`, 'tools: low: y: by x']);
  });

  it('is said to be nothing only where the registry said so', () => {
    const nothing = readAudit('{"auditReportVersion":2,"vulnerabilities":{},"metadata":{}}');
    expect(auditLines('tools', nothing)).toEqual(['tools: answered, no findings']);
  });

  it.each([
    [
      '{"message":"405 Method Not Allowed","statusCode":405,"error":{"summary":"","detail":""}}',
      'the registry said 405',
    ],
    ['{"error":{"code":"ENOTFOUND","summary":"getaddrinfo","detail":""}}', 'ENOTFOUND'],
    ['', 'it printed no report'],
    ['{}', 'it printed no report'],
    ['{"auditReportVersion":3,"vulnerabilities":{}}', 'it printed no report'],
  ])('is not known where it answers %j', (printed, why) => {
    const audit = readAudit(printed);
    expect(audit).toEqual({ kind: 'not-answered', why });
    expect(auditLines('tools', audit).join()).toContain('not answered');
    expect(auditLines('tools', audit).join()).not.toContain('no findings');
  });
});

describe('signatures', () => {
  it('that are wrong stop a release, and those that are missing are named', () => {
    const one = { name: 'x', version: '1.0.0', location: 'node_modules/x', registry: 'https://x.example/' };
    const audit = readSignatures(JSON.stringify({ invalid: [one], missing: [{ ...one, name: 'y' }] }));
    expect(stopping(audit).map(({ name }) => name)).toEqual(['x 1.0.0']);
    expect(auditLines('signatures', audit)).toContain('signatures: moderate: y 1.0.0: no signature');
  });

  it('are not known where there was no answer', () => {
    expect(readSignatures('{"error":{"code":"ENOTFOUND"}}')).toEqual({ kind: 'not-answered', why: 'ENOTFOUND' });
  });
});
