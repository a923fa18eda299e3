import type { Circle } from '../solve/bolt-circle.ts';
import type { CassetteProblem } from '../solve/derailleur.ts';
import type { FitReason } from '../solve/ring-fit.ts';
import { headReachMm } from '../solve/smallest-ring.ts';
import { plain } from './measures.ts';

/** "104, 110 or 130": several figures as one phrase. */
export function orList(parts: readonly string[]): string {
  if (parts.length < 2) return parts[0] ?? '';
  return `${parts.slice(0, -1).join(', ')} or ${parts[parts.length - 1]}`;
}

/** "104 mm, 4 bolts". */
export function circleName(circle: Circle): string {
  const bcd = `${plain(circle.bcdMm, 1)} mm`;
  return circle.bolts === null ? bcd : `${bcd}, ${circle.bolts} bolts`;
}

/** "96, 104 or 110 mm": each diameter once. */
export function diameters(circles: readonly Circle[]): string {
  const once = [...new Set(circles.map((each) => each.bcdMm))].sort((a, b) => a - b);
  return `${orList(once.map((bcdMm) => plain(bcdMm, 1)))} mm`;
}

/** Why a ring fits only with a condition, or not at all, in one sentence without its full stop. */
export function fitReasonWords(teeth: number, reason: FitReason): string {
  switch (reason.kind) {
    case 'odd-count':
      return `${teeth}T is odd: wide and narrow teeth take turns, so a wide tooth meets a narrow gap every second turn`;
    case 'drive-unit':
      return reason.certain
        ? 'the maker of the drive unit says which rings fit it: ask for its list'
        : "if the motor sits at the cranks, its maker's list decides";
    case 'riveted':
      return 'riveted rings do not come apart: this needs a new crank';
    case 'no-room-for-bolts': {
      const bcd = plain(reason.bcdMm, 1);
      const valley = `${teeth}T: its valley diameter is ${plain(reason.valleyMm, 1)} mm`;
      return reason.valleyMm <= reason.bcdMm
        ? `${valley} and the bolts sit on ${bcd}`
        : `${valley}, and on ${bcd} the bolt heads reach ${plain(headReachMm(reason.bcdMm), 1)} mm`;
    }
    case 'special-ring-only':
      return `on ${plain(reason.bcdMm, 1)} mm only as a special ring with its own threads or raised tabs`;
    case 'below-printed':
      return `${reason.smallestTeeth}T is the printed smallest; ${plain(reason.marginMm, 1)} mm are left for the bolts: measure first`;
    case 'uneven-pattern':
      return `uneven hole pattern: it must be a ring for this crank's own pattern, which its maker names, not just for ${plain(reason.bcdMm, 1)} mm`;
    case 'inner-circle':
      return `${plain(reason.bcdMm, 1)} mm is an inner circle: the single ring goes on the outer one, ${orList(reason.outerMm.map((mm) => plain(mm, 1)))} mm`;
    case 'depends-on-circle':
      return reason.special
        ? `bolt circle not sure: on ${diameters(reason.circles)} only as a special ring`
        : `bolt circle not sure: it would sit on ${diameters(reason.circles)}`;
    case 'no-usual-circle':
      return 'too small for every circle usual on such a crank';
    case 'circle-unknown':
      return 'bolt circle unknown: measure it first';
    case 'own-interface':
      return "needs a ring for this crank's own interface";
    case 'small-for-direct':
      return `few direct-mount rings are made below ${reason.usualTeeth}T`;
    case 'frame-room': {
      const across = reason.acrossTeeth > teeth ? `, and oval it is as wide as ${plain(reason.acrossTeeth, 1)}T` : '';
      return `the frame has room for ${reason.maxRingTeeth}T at most${across}`;
    }
    case 'larger-than-today':
      return `larger than the ${reason.largestRingTeeth}T there today: check 3 mm of clearance to the chainstay, on a folder to the fold too`;
    default:
      return cassetteProblemWords(reason);
  }
}

/** Why the derailleur does not take the cassette, whatever ring is in front. */
export function cassetteProblemWords(problem: CassetteProblem): string {
  switch (problem.kind) {
    case 'largest-over':
      return `${problem.largestTeeth}T is over the derailleur's largest, ${problem.maxTeeth}T`;
    case 'largest-under':
      return `the largest sprocket, ${problem.largestTeeth}T, is under the ${problem.minTeeth}T the derailleur needs`;
    case 'capacity-over':
      return `the cassette needs ${problem.needed} teeth of capacity, the derailleur has ${problem.capacityTeeth}`;
    case 'cage-over':
      return `the cassette needs ${problem.needed} teeth of capacity, a ${problem.cage} cage usually has ${problem.highTeeth} at most`;
    default:
      return problem satisfies never;
  }
}
