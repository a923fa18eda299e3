import { KEYS } from '../bike/keys.ts';
import type { Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import type { Block } from '../card/card.ts';
import { notYetWords } from '../card/convert.ts';
import { derailleurBlocks, derailleurLines } from '../card/derailleur.ts';
import { mountBlocks, mountHeadline } from '../card/mount.ts';
import { ringRefusal } from '../card/ring-refusal.ts';
import type { Outcome } from './command.ts';
import { derailleurPart } from './derailleur-part.ts';
import { driveParts } from './drive-parts.ts';
import { type FitOf, type MountFindings, mountPart } from './mount.ts';

/** Every ring that can be asked for, smallest first. */
const RINGS = Array.from({ length: KEYS.ring.high - KEYS.ring.low + 1 }, (_, index) => KEYS.ring.low + index);

/** Asked where nothing at all was told of how the ring is held. */
const MOUNT_QUESTION: Question = {
  field: 'bcd',
  question: 'How is the ring held? Four or five bolts have a circle; no bolts on the arms is direct mount.',
  choices: [
    { label: '104 mm, four bolts', setup: 'bcd=104 bolts=4' },
    { label: '110 mm, five bolts', setup: 'bcd=110 bolts=5' },
    { label: 'Direct mount', setup: 'mount=direct' },
    { label: 'Rivets', setup: 'mount=riveted' },
  ],
};

/**
 * Too little is known for a plan. A ring that cannot be is refused all the same, because no more telling would help it;
 * and what does not hang on the gears is answered: the bolt circle, the derailleur. A cassette that the derailleur does
 * not take is no fault of the ring, so the ring is judged without it.
 */
export function notYet(bike: SettledBike, mounting: MountFindings, gearAsks: readonly Question[]): Outcome {
  const { part, facts } = mounting;
  const { ringTeeth, cassette, newCassette, ...crank } = bike;
  if (ringTeeth !== undefined) {
    const { fitOf } = mountPart(crank);
    const { fit, reasons } = fitOf(ringTeeth);
    const usableTeeth = fit === 'no' ? nearestUsable(ringTeeth, fitOf) : null;
    if (usableTeeth !== null) {
      return { kind: 'refused', refusal: ringRefusal(ringTeeth, reasons, part, usableTeeth) };
    }
  }
  const drive = driveParts(bike);
  const known: string[] = [];
  const blocks: Block[] = [...drive.cautions];
  const derailleur = derailleurPart(bike);
  if (derailleur !== null && toldOfDerailleur(bike)) {
    known.push(...derailleurLines(derailleur.part, derailleur.verdict, bike));
    blocks.push(...derailleurBlocks(derailleur.part, derailleur.verdict, bike));
  }
  const atTheMotor = part.driveUnit === 'certain';
  if (part.mount !== null || atTheMotor) {
    known.push(mountHeadline(part, facts));
    blocks.push(...mountBlocks(part, facts, bike, ringTeeth ?? null));
  }
  const held = atTheMotor ? mounting.asks : part.mount === null ? [MOUNT_QUESTION] : [];
  const asks = [...drive.asks, ...gearAsks, ...held];
  return { kind: 'asks', asks, words: { ...notYetWords(bike, known), blocks: [...blocks, ...drive.notes] } };
}

/** The ring nearest to the wanted one that fits, else that may fit; the smaller of two, null for none. */
function nearestUsable(ringTeeth: number, fitOf: FitOf): number | null {
  const nearest = RINGS.toSorted((one, other) => Math.abs(one - ringTeeth) - Math.abs(other - ringTeeth));
  return (
    nearest.find((teeth) => fitOf(teeth).fit === 'fits') ?? nearest.find((teeth) => fitOf(teeth).fit !== 'no') ?? null
  );
}

function toldOfDerailleur({ cage, capacityTeeth, maxSprocketTeeth, minSprocketTeeth }: SettledBike): boolean {
  return [cage, capacityTeeth, maxSprocketTeeth, minSprocketTeeth].some((each) => each !== undefined);
}
