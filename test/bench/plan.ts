import { ask } from '../../src/workbench.ts';
import type { Size } from './rounds.ts';
import { median } from './row.ts';
import { nthSetup } from './setups.ts';

/** Processor time of a plan alone, in microseconds: no platform, nothing kept, from the line to the card as data. */
export function planUs({ warmUp, rounds, each }: Size): number {
  let n = 0;
  const plans = (count: number) => {
    const from = process.cpuUsage();
    for (let index = 0; index < count; index += 1) {
      n += 1;
      ask({ command: 'convert', setup: nthSetup(n) });
    }
    const { user, system } = process.cpuUsage(from);
    return (user + system) / count;
  };
  plans(Math.max(1, warmUp));
  return median(Array.from({ length: rounds }, () => plans(each)));
}
