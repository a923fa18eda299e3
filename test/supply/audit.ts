import { z } from 'zod';

/** One package with something known against it. */
export type Finding = { readonly name: string; readonly severity: string; readonly titles: readonly string[] };

/** What the registry said; that it did not answer is never the same as that it found nothing. */
export type Audit =
  | { readonly kind: 'answered'; readonly findings: readonly Finding[] }
  | { readonly kind: 'not-answered'; readonly why: string };

/** Findings of these kinds stop a release; every other one is printed. */
const STOPS: readonly string[] = ['high', 'critical'];

const Report = z.object({
  auditReportVersion: z.literal(2),
  vulnerabilities: z.record(
    z.string(),
    z.object({
      name: z.string(),
      severity: z.enum(['info', 'low', 'moderate', 'high', 'critical']),
      via: z.array(z.union([z.string(), z.object({ title: z.string() })])),
    }),
  ),
});

const Signed = z.object({ name: z.string(), version: z.string() });
const Signatures = z.object({ invalid: z.array(Signed), missing: z.array(Signed) });

const Failure = z.object({
  statusCode: z.number().optional(),
  message: z.string().optional(),
  error: z.object({ code: z.string().optional(), summary: z.string().optional() }),
});

/** What `npm audit --json` printed. */
export function readAudit(printed: string): Audit {
  const json = parsed(printed);
  const report = Report.safeParse(json).data;
  if (report === undefined) return { kind: 'not-answered', why: reasonOf(json) };
  const findings = Object.values(report.vulnerabilities).map(({ name, severity, via }) => ({
    name,
    severity,
    titles: via.map((each) => (typeof each === 'string' ? `by ${each}` : each.title)),
  }));
  return { kind: 'answered', findings };
}

/** What `npm audit signatures --json` printed: a signature that is wrong stops, one that is missing is named. */
export function readSignatures(printed: string): Audit {
  const json = parsed(printed);
  const signatures = Signatures.safeParse(json).data;
  if (signatures === undefined) return { kind: 'not-answered', why: reasonOf(json) };
  const as = (severity: string, title: string) => (each: z.infer<typeof Signed>) => ({
    name: `${each.name} ${each.version}`,
    severity,
    titles: [title],
  });
  return {
    kind: 'answered',
    findings: [
      ...signatures.invalid.map(as('critical', 'a wrong signature')),
      ...signatures.missing.map(as('moderate', 'no signature')),
    ],
  };
}

function parsed(printed: string): unknown {
  try {
    return JSON.parse(printed);
  } catch {
    return null;
  }
}

function reasonOf(json: unknown): string {
  const { data } = Failure.safeParse(json);
  if (data?.statusCode !== undefined) return `the registry said ${data.statusCode}`;
  return data?.error.code ?? 'it printed no report';
}

/** The findings that must be settled before anything is released. */
export function stopping(audit: Audit): readonly Finding[] {
  return audit.kind === 'answered' ? audit.findings.filter(({ severity }) => STOPS.includes(severity)) : [];
}

/** One line for each thing to know. */
export function auditLines(what: string, audit: Audit): readonly string[] {
  if (audit.kind === 'not-answered') return [`${what}: not answered (${audit.why}); nothing is known either way`];
  if (audit.findings.length === 0) return [`${what}: answered, no findings`];
  return audit.findings.map(({ name, severity, titles }) => `${what}: ${severity}: ${name}: ${titles.join('; ')}`);
}
