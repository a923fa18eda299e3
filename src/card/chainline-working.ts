import type { SettledBike } from '../bike/settled.ts';
import type { ChainlinePart } from '../commands/answer.ts';
import type { Spacing } from '../solve/chainline.ts';
import { FRONT_LINES, LINE_LIMITS, REAR_LINES } from '../tables/chainlines.ts';
import { SOURCES } from '../tables/sources.ts';
import { SPROCKET_SPACING } from '../tables/sprocket-spacing.ts';
import type { WorkingStep } from './card.ts';
import { plain } from './measures.ts';

const LIMIT_SOURCE = SOURCES[LINE_LIMITS.straight.cite.source];

/** How the chainline's figures came about, with the rider's own numbers. */
export function chainlineWorking(
  part: ChainlinePart,
  bike: SettledBike,
  spacing: Spacing | null,
): readonly WorkingStep[] {
  const { frontMm, rearMm, offsetMm, worstDeg } = part;
  const steps: WorkingStep[] = [];
  const rear = REAR_LINES.find((row) => row.hubMm === bike.hubMm);
  if (rear !== undefined && rearMm !== null) {
    steps.push({
      quantity: 'Middle of the cassette',
      formula: rear.basis === 'published' ? 'as printed for the hub' : 'calculated from a printed hub',
      numbers: `${rear.hubMm} mm hub: ${rear.cite.locator}`,
      result: `${plain(rearMm, 1)} mm`,
      source: SOURCES[rear.cite.source],
    });
  }
  const front = FRONT_LINES.find((row) => row.hubMm === bike.hubMm);
  if (front !== undefined) {
    steps.push({
      quantity: 'Where rings are made to run',
      formula: 'as printed for the hub',
      numbers: `${front.hubMm} mm hub: ${front.cite.locator}`,
      result: `${plain(front.lowMm, 1)} to ${plain(front.highMm, 1)} mm`,
      source: SOURCES[front.cite.source],
    });
  }
  if (frontMm !== null && rearMm !== null && offsetMm !== null) {
    steps.push({
      quantity: 'Ring against the middle of the cassette',
      formula: `ring − cassette; within ${LINE_LIMITS.straight.value} mm is straight, ${LINE_LIMITS.outside.value} mm the outside`,
      numbers: `${plain(frontMm, 2)} − ${plain(rearMm, 1)}`,
      result: `${plain(offsetMm, 2)} mm`,
      source: LIMIT_SOURCE,
    });
  }
  if (spacing !== null && part.sprockets.length > 0) {
    const row = SPROCKET_SPACING.find((each) => each.speeds === speedsOf(part, bike));
    steps.push({
      quantity: 'Width of the cassette',
      formula: '(n − 1) × spacing + thickness',
      numbers: `spacing ${plain(spacing.spacingMm, 3)} mm`,
      result: `${plain(spacing.stackMm, 1)} mm`,
      source: row === undefined || row.basis === 'memory' ? 'memory: middle of a range' : SOURCES[row.cite.source],
    });
  }
  const worst = part.sprockets.find((each) => each.angleDeg === worstDeg);
  if (worstDeg !== null && worst !== undefined && bike.stayMm !== undefined) {
    steps.push({
      quantity: `Angle at the ${worst.teeth}T sprocket`,
      formula: `atan(offset / chainstay); ${LINE_LIMITS.preferred.value}° preferred, ${LINE_LIMITS.comfort.value}° the limit of comfort`,
      numbers: `atan(${plain(Math.abs(worst.offsetMm), 2)} / ${plain(bike.stayMm, 1)})`,
      result: `${plain(worstDeg, 2)}°`,
      source: 'geometry; limits common practice',
    });
  }
  return steps;
}

function speedsOf(part: ChainlinePart, bike: SettledBike): number | undefined {
  return bike.speeds ?? part.sprockets.length;
}
