import { developmentM, gearInches, gearRatio, speedKmh } from '../solve/gears.ts';
import type { Block } from './card.ts';
import type { GearsFacts } from './gears-facts.ts';
import { plain, ratio } from './measures.ts';

/** Every gear of the ring in question, lowest first; nothing where the sprockets or the ring are unknown. */
export function sprocketTable(facts: GearsFacts): readonly Block[] {
  const { ring, sprocketsThen, wheel, cadenceRpm } = facts;
  if (ring === null || sprocketsThen.kind === 'cannot') return [];
  const columns = ['Sprocket', 'Ratio'];
  if (wheel !== null) columns.push('Metres a turn', 'Gear inches', `km/h, ${plain(cadenceRpm, 0)} rpm`);
  const rows = sprocketsThen.sprockets.toReversed().map((teeth) => {
    const gear = gearRatio(ring.teeth, teeth);
    const row = [`${teeth}T`, ratio(gear)];
    if (wheel !== null) {
      const metres = developmentM(gear, wheel.circumferenceMm);
      row.push(
        metres.toFixed(2),
        gearInches(gear, wheel.circumferenceMm).toFixed(1),
        speedKmh(metres, cadenceRpm).toFixed(1),
      );
    }
    return row;
  });
  const title = `Every gear of ${ring.teeth}T${sprocketsThen.from === 'told' ? '' : ' (sprockets assumed)'}`;
  return [{ kind: 'table', section: 'gears', title, columns, rows }];
}
