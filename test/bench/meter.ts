/**
 * Loaded before a measured program (`node --import`): tells whoever started it how much processor time the whole process
 * has used, threads of the runtime included. The program itself knows nothing of it.
 */
process.on('message', () => {
  const { user, system } = process.cpuUsage();
  process.send?.(user + system);
});
// Nor does it go on when whoever measures it has gone.
process.once('disconnect', () => process.exit());
// The program ends when it has nothing more to do, as if nobody measured.
process.channel?.unref();
