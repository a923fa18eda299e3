import type { Bike } from '../bike/bike.ts';
import type { Question } from '../bike/reading.ts';
import { assistBlocks, assistCautions, motorQuestion } from '../card/assist.ts';
import type { Block } from '../card/card.ts';
import { tandemBlocks, tandemCautions, tandemNotes } from '../card/tandem.ts';
import type { DriveUnit } from '../solve/ring-fit.ts';
import type { Answer, AssistPart, TandemPart } from './answer.ts';

/** What a motor or a second rider changes on any card that leads to work. */
export type DriveFindings = {
  readonly parts: Pick<Answer, 'assist' | 'tandem'>;
  readonly cautions: readonly Block[];
  /** For the end of a card, where the work is. */
  readonly notes: readonly Block[];
  readonly asks: readonly Question[];
};

function assistPart({ assist }: Bike): AssistPart | null {
  if (assist === undefined || assist === 'none') return null;
  const where = assist === 'yes' ? null : assist;
  return { where, countedInClimb: false, cautions: assistCautions(where) };
}

function tandemPart({ tandem }: Bike): TandemPart | null {
  return tandem === true ? { timingChain: 'not-covered', ridersCounted: 'together', cautions: tandemCautions() } : null;
}

/** The cautions of a motor and of a tandem, and the one question a motor may leave. */
export function driveParts(bike: Bike): DriveFindings {
  const assist = assistPart(bike);
  const tandem = tandemPart(bike);
  return {
    parts: { ...(assist === null ? {} : { assist }), ...(tandem === null ? {} : { tandem }) },
    cautions: [...assistBlocks(assist), ...tandemBlocks(tandem)],
    notes: tandemNotes(tandem),
    asks: assist !== null && assist.where === null ? [motorQuestion()] : [],
  };
}

/** Whether a motor sits at the cranks, so that its maker decides on ring and bolts. */
export function driveUnitOf({ assist }: Bike): DriveUnit {
  if (assist === 'mid-drive') return 'certain';
  return assist === 'yes' ? 'possible' : null;
}
