import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Audit, auditLines, readAudit, readSignatures, stopping } from './audit.ts';
import { contentsPage, purposeFaults } from './contents.ts';
import { licenceFaults, licenceOf } from './licences.ts';
import { lockFaults } from './lock-rules.ts';
import { npm } from './npm.ts';
import { packagesOf, ROOT, readLock, readManifest } from './packages.ts';

const PAGE = join(ROOT, 'deploy/image-contents.md');

const manifest = readManifest();
const lock = readLock();
const packages = packagesOf(lock);
const page = contentsPage(manifest, lock, readFileSync(join(ROOT, 'deploy/Dockerfile'), 'utf8'));

const [what = 'everything'] = process.argv.slice(2);
switch (what) {
  case 'contents':
    writeFileSync(PAGE, page);
    console.log('deploy/image-contents.md is written.');
    break;
  case 'licences':
    for (const each of packages) {
      console.log(`${each.production ? 'programs' : 'tools'}\t${each.name}\t${each.version}\t${licenceOf(each)}`);
    }
    break;
  case 'everything':
    await everything();
    break;
  default:
    console.log('npm run supply, npm run supply -- contents, npm run supply -- licences');
    process.exitCode = 2;
}

async function everything(): Promise<void> {
  told('the lock file', lockFaults(manifest, lock));
  told('licences', licenceFaults(packages));
  const listed = await npm(['ls', '--all', '--json']);
  told('what is installed', listed.code === 0 ? [] : [listed.stderr.trim()]);
  const current = readFileSync(PAGE, 'utf8') === page;
  const stale = current ? [] : ['deploy/image-contents.md is not current: npm run supply -- contents'];
  told('contents of the image', [...stale, ...purposeFaults(manifest)]);
  const [programs, all, signatures] = await Promise.all([
    npm(['audit', '--omit=dev', '--json']),
    npm(['audit', '--json']),
    npm(['audit', 'signatures', '--json']),
  ]);
  audited('known faults of what runs', readAudit(programs.stdout), true);
  audited('known faults of tools and all', readAudit(all.stdout), false);
  audited('signatures of the registry', readSignatures(signatures.stdout), true);
}

function told(what: string, faults: readonly string[]): void {
  if (faults.length > 0) process.exitCode = 1;
  for (const line of faults.length === 0 ? ['in order'] : faults) console.log(`${what}: ${line}`);
}

/** Everything that was found is printed; what is found in what runs may stop the release. */
function audited(what: string, audit: Audit, stops: boolean): void {
  if (stops && stopping(audit).length > 0) process.exitCode = 1;
  for (const line of auditLines(what, audit)) console.log(line);
}
