import { enableCompileCache } from 'node:module';

// Before anything large is loaded, so that a second start finds it compiled.
enableCompileCache();

// Whoever reads the answer may stop early ("| head -1"): that ends the work and is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') process.exitCode = 1;
  process.exit();
});

try {
  const { run } = await import('./run.ts');
  process.exitCode = await run({
    args: process.argv.slice(2),
    env: process.env,
    openInput: () => process.stdin,
    output: process.stdout,
    openRecords: async (where) => (await import('../storage/open.ts')).openRecords(where),
    printPage: async ({ sheet, paper }) =>
      (await import('../print/job-sheet.ts')).printJobSheet(sheet, paper, Date.now()),
    openPictures: async () => (await import('../picture/pictures.ts')).openPictures(),
  });
} catch (error) {
  const { faultLine } = await import('./fault.ts');
  process.stderr.write(`${faultLine(error)}\n`);
  process.exitCode = 1;
}
