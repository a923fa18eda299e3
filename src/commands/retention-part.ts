import type { Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import { retention } from '../solve/retention.ts';
import type { RetentionPart } from './answer.ts';

const CLUTCH: Question = {
  field: 'clutch',
  question: 'Has the rear derailleur a clutch, a small lever that stiffens its cage?',
  choices: [
    { label: 'Clutch', setup: 'clutch=yes' },
    { label: 'No clutch', setup: 'clutch=no' },
  ],
};

const GUIDE: Question = {
  field: 'guide',
  question: 'Is there a chain guide at the ring?',
  choices: [
    { label: 'Chain guide', setup: 'guide=yes' },
    { label: 'No guide', setup: 'guide=no' },
  ],
};

const GROUND: Question = {
  field: 'ground',
  question: 'What ground is it ridden on?',
  choices: [
    { label: 'Smooth', setup: 'ground=smooth' },
    { label: 'Gravel, moderate trails', setup: 'ground=mixed' },
    { label: 'Rough', setup: 'ground=rough' },
  ],
};

/** What keeps the chain on, and what could still be told about it, the most telling first. */
export type RetentionFindings = { readonly part: RetentionPart; readonly asks: readonly Question[] };

/** What keeps the chain on this bike with a narrow-wide ring. */
export function retentionPart(bike: SettledBike): RetentionFindings {
  const part = retention({ clutch: bike.clutch ?? null, guide: bike.guide ?? null, ground: bike.ground ?? null });
  const asks: Question[] = [];
  if (part.enough !== true) {
    if (part.unknown.includes('clutch')) asks.push(CLUTCH);
    if (part.ground === null) asks.push(GROUND);
    if (part.unknown.includes('guide')) asks.push(GUIDE);
  }
  return { part, asks };
}
