import { ask } from '../../src/workbench.ts';
import { OWN_WORDS } from '../bike/corpus.ts';

/** The lines of the corpus that are a whole question: answered with a plan, not with a question back. */
export const SETUPS: readonly string[] = OWN_WORDS.map(({ line }) => line).filter(
  (setup) => ask({ command: 'convert', setup }).kind === 'answered',
);

/** The line that the nth question asks: each in turn. */
export function nthSetup(n: number): string {
  return SETUPS[n % SETUPS.length] ?? '';
}
