import type { Cassette } from './bike.ts';
import { type Claims, doubt, tell } from './claims.ts';
import { KEYS } from './keys.ts';
import { settling } from './value-text.ts';

const FEWEST = KEYS.speeds.low;
const MOST = KEYS.speeds.high;

/** Puts together what was told in parts and in counts: rings one by one, "double", "24 speed", "1x11". */
export function settleLayout(claims: Claims): void {
  settleParts(claims);
  settleBareTriple(claims);
  if (claims.usualRings !== null && !claims.told.has('rings')) tell(claims, 'rings', claims.usualRings);
  settleRingCount(claims);
  for (const count of claims.speedCounts) settleSpeeds(claims, count);
  for (const sprockets of claims.singles) settleSingle(claims, sprockets);
}

function settleParts(claims: Claims): void {
  const { ringParts, smallestTeeth, largestTeeth } = claims;
  const rings = [...new Set(ringParts)].sort((one, other) => other - one);
  if (rings.length > 3) {
    doubt(claims, ['rings'], {
      field: 'rings',
      question: 'More than three rings are told. Which are fitted?',
      choices: [],
    });
  } else if (rings.length > 1) tell(claims, 'rings', rings);
  else if (rings.length === 1) onePart(claims, rings);
  if (smallestTeeth !== null && largestTeeth !== null) {
    if (smallestTeeth < largestTeeth) tell(claims, 'cassette', { smallestTeeth, largestTeeth });
    return;
  }
  const end = smallestTeeth ?? largestTeeth;
  if (end === null) return;
  const cassette = toldCassette(claims);
  if (cassette !== null && (cassette.smallestTeeth === end || cassette.largestTeeth === end)) return;
  doubt(claims, ['cassette'], {
    field: 'cassette',
    question: `One end of the cassette is told, ${end}. What is the other?`,
    choices: [],
  });
}

/** "triple 44 32 22": three bare numbers that fall or rise, no more and no less, are the three rings. */
function settleBareTriple(claims: Claims): void {
  const { amounts, told } = claims;
  if (claims.ringCounts[0]?.count !== 3 || amounts.length !== 3 || told.has('rings')) return;
  const [first = 0, second = 0, third = 0] = amounts.map((each) => each.quantity.value);
  const bare = amounts.every(({ quantity: { value, unit }, toward, present }) => {
    const ring = Number.isInteger(value) && value >= KEYS.rings.low && value <= KEYS.rings.high;
    return ring && (unit === null || unit === 'teeth') && toward !== true && present !== true;
  });
  const steady = (first > second && second > third) || (first < second && second < third);
  if (!bare || !steady) return;
  amounts.length = 0;
  tell(claims, 'rings', [Math.max(first, third), second, Math.min(first, third)]);
}

/** One ring named by its place: part of a set that is told, or one that is missing its neighbours. */
function onePart(claims: Claims, rings: readonly number[]): void {
  const told = claims.told.get('rings');
  if (Array.isArray(told) && told.includes(rings[0])) return;
  doubt(claims, ['rings'], {
    field: 'rings',
    question: `One ring is told, ${rings[0]}. Which others are fitted?`,
    choices: [{ label: `Only the ${rings[0]}`, setup: settling('rings', rings) }],
  });
}

/** What two riders weigh counts together; one of them alone is not the weight on a tandem. */
export function settleRiders(claims: Claims): void {
  const [oneKg, otherKg] = claims.eachRiderKg;
  if (oneKg === undefined) return;
  if (otherKg !== undefined && claims.eachRiderKg.length === 2) {
    tell(claims, 'rider', Math.round((oneKg + otherKg) * 1e4) / 1e4);
    return;
  }
  claims.open.push({
    field: 'rider',
    question: 'What do both riders weigh together, with clothes and packs?',
    choices: [],
  });
}

/** "Uneven" is of the bolt holes where bolts, their circle or a gap are told; else of something else. */
export function settlePattern(claims: Claims): void {
  const { uneven, told } = claims;
  if (uneven === null) return;
  if (told.has('bcd') || told.has('bolts') || told.has('gap')) tell(claims, 'pattern', 'uneven');
  else claims.unread.push(uneven);
}

/** How many rings the bike has, by their sizes or by a word; null where nothing tells. */
function ringCount(claims: Claims): number | null {
  const rings = claims.told.get('rings');
  return Array.isArray(rings) ? rings.length : (claims.ringCounts[0]?.count ?? null);
}

function settleRingCount(claims: Claims): void {
  const rings = claims.told.get('rings');
  const [first] = claims.ringCounts;
  const other = claims.ringCounts.find((each) => each.count !== first?.count);
  if (first !== undefined && other !== undefined) {
    doubt(claims, ['rings'], {
      field: 'rings',
      question: `"${first.text}" and "${other.text}" name two numbers of rings. Which rings are fitted?`,
      choices: Array.isArray(rings) ? [{ label: rings.join('/'), setup: settling('rings', rings) }] : [],
    });
    return;
  }
  if (first === undefined || !Array.isArray(rings) || rings.length === first.count) return;
  doubt(claims, ['rings'], {
    field: 'rings',
    question: `"${first.text}" means ${first.count} rings, but ${rings.join('/')} is told. Which rings are fitted?`,
    choices: [rings, ...(rings.length === first.count + 1 ? without(rings) : [])].map((set) => ({
      label: set.length === 1 ? `One ring, ${set[0]}` : `${set.length === 2 ? 'Two' : 'Three'} rings, ${set.join('/')}`,
      setup: settling('rings', set),
    })),
  });
}

/** The rings with the smallest, or the largest, left out. */
function without(rings: readonly number[]): readonly (readonly number[])[] {
  return [rings.slice(0, -1), rings.slice(1)];
}

/**
 * "24 speed" counts rings times sprockets, "10 speed" the sprockets, except on an old bike, where it may be twice five:
 * the smallest sprocket tells the age.
 */
function settleSpeeds(claims: Claims, count: number): void {
  const rings = ringCount(claims);
  const cassette = toldCassette(claims);
  const speeds = claims.told.get('speeds');
  if (count < FEWEST) {
    claims.unread.push(`${count} speed`);
    return;
  }
  if (count <= MOST) {
    const half = count / 2;
    const old = cassette !== null && (cassette.sprockets?.length === half || cassette.smallestTeeth >= 14);
    if (half >= FEWEST && Number.isInteger(half) && rings !== 1 && rings !== 3 && speeds === undefined && old) {
      doubt(claims, ['speeds'], {
        field: 'speeds',
        question: `Is "${count} speed" ${count} sprockets, or 2 rings and ${half} sprockets?`,
        choices: [half, count].map((each) => ({ label: `${each} sprockets`, setup: settling('speeds', each) })),
      });
      return;
    }
    if (typeof speeds === 'number' && rings !== null && speeds * rings === count) return;
    tell(claims, 'speeds', count);
    return;
  }
  const ways = [3, 2].filter((each) => isCount(count / each) && (rings === null || rings === each));
  const [way] = ways;
  if (typeof speeds === 'number' && ways.includes(count / speeds)) {
    claims.ringCounts.push({ count: count / speeds, text: `${count} speed` });
    return;
  }
  const counted = ways.find((each) => cassette?.sprockets?.length === count / each);
  const chosen = counted ?? (ways.length === 1 ? way : undefined);
  if (chosen !== undefined) {
    tell(claims, 'speeds', count / chosen);
    return;
  }
  const all = [3, 2].filter((each) => isCount(count / each));
  doubt(claims, ['speeds', 'rings'], {
    field: 'speeds',
    question:
      all.length === 0
        ? `No rings and sprockets make ${count} speeds. How many sprockets are there?`
        : ways.length === 0 && rings !== null
          ? `"${count} speed" does not go with ${rings} ${rings === 1 ? 'ring' : 'rings'}. How many sprockets are there?`
          : `Is "${count} speed" ${all.map((each) => `${each}x${count / each}`).join(' or ')}?`,
    choices: all.map((each) => ({
      label: `${each} rings, ${count / each} sprockets`,
      setup: settling('speeds', count / each),
    })),
  });
}

/**
 * "1x11" on a bike with two or three rings is the wish, and says nothing of the sprockets it has now; on any other it
 * is the bike.
 */
function settleSingle(claims: Claims, sprockets: number): void {
  if (sprockets === 0) return;
  const rings = ringCount(claims);
  if (rings === 2 || rings === 3) {
    const speeds = claims.told.get('speeds');
    if (speeds === undefined || speeds === sprockets || claims.told.has('newcassette')) return;
    claims.open.push({
      field: 'newcassette',
      question: `1x${sprockets} needs a cassette of ${sprockets} sprockets, and you have ${String(speeds)}. Which do you want?`,
      choices: [],
    });
    return;
  }
  tell(claims, 'speeds', sprockets);
}

function isCount(value: number): boolean {
  return Number.isInteger(value) && value >= FEWEST && value <= MOST;
}

function toldCassette(claims: Claims): Cassette | null {
  const cassette = claims.told.get('cassette');
  return typeof cassette === 'object' && 'smallestTeeth' in cassette ? cassette : null;
}
