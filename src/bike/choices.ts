import type { Value } from './fields.ts';
import { KEYS, type Key, type KeyName } from './keys.ts';

const YES = ['yes', 'y', 'true', 'on', 'with', 'fitted', '1'];
const NO = ['no', 'n', 'false', 'off', 'without', 'none', '0'];

/** Other words for a choice than the choice itself. */
const ALSO: Partial<Record<KeyName, Readonly<Record<string, readonly string[]>>>> = {
  mount: {
    bolted: ['bolts', 'bolt', 'spider'],
    direct: ['direct mount', 'directmount', 'dm', 'spiderless'],
    riveted: ['rivets', 'rivetted'],
  },
  suspension: {
    none: ['no', 'hardtail', 'hard tail', 'ht', 'rigid', 'front'],
    rear: ['yes', 'full', 'full sus', 'full suspension', 'fs', 'dually', 'susser', 'dual', 'both'],
  },
  join: {
    link: ['joining link', 'quick link', 'quicklink', 'master link', 'missing link', 'power link'],
    pin: ['joining pin', 'pinned', 'rivet'],
  },
  cage: { short: ['short cage'], medium: ['mid', 'middle', 'mid cage', 'medium cage'], long: ['long cage'] },
  ground: { smooth: ['road', 'tarmac'], mixed: ['gravel'], rough: ['rocky', 'rooty'] },
  terrain: { hills: ['hilly', 'hill', 'mountains', 'steep'], rolling: ['rolling hills'], flat: ['flat land'] },
  cranktype: {
    pinch: ['pinch bolt', 'pinch bolts', 'two pinch bolts'],
    taper: ['square taper', 'square'],
    splined: ['spline', 'splines', 'splined axle'],
  },
  boltmaterial: { steel: ['steel bolts'], aluminium: ['aluminum', 'alloy', 'alu'] },
  bar: { flat: ['flat bar', 'flat bars', 'riser'], drop: ['drops', 'drop bar', 'drop bars'] },
  pattern: {
    even: ['symmetric', 'symmetrical', 'sym', 'regular'],
    uneven: ['asym', 'asymmetric', 'asymmetrical', 'irregular'],
  },
  assist: {
    none: ['no', 'without'],
    hub: ['hub motor', 'hub drive', 'rear hub', 'front hub'],
    'mid-drive': ['mid drive', 'middrive', 'mid', 'mid motor', 'centre motor', 'center motor', 'crank motor'],
    yes: ['y', 'with', 'fitted', 'ebike', 'e-bike', 'e bike', 'pedelec', 'motor'],
  },
  units: { metric: ['mm'], imperial: ['inch', 'inches', 'in'] },
};

const CHOICES = new Map<KeyName, ReadonlyMap<string, Value>>();
for (const [name, key] of Object.entries(KEYS) as readonly [KeyName, Key][]) {
  if (key.form === 'yes-no') {
    CHOICES.set(
      name,
      new Map([...YES.map((word) => [word, true] as const), ...NO.map((word) => [word, false] as const)]),
    );
  } else if (key.choices !== undefined) {
    const words = new Map<string, Value>();
    for (const choice of key.choices) {
      // Every choice of the table is one of the values its key holds.
      const value = (name === 'allowance' ? Number(choice) : choice) as Value;
      for (const word of [choice, ...(ALSO[name]?.[choice] ?? [])]) words.set(word, value);
      if (name === 'allowance') for (const unit of ['pitches', 'links']) words.set(`${choice} ${unit}`, value);
    }
    CHOICES.set(name, words);
  }
}

/** The choice a text makes for a key; undefined where it makes none. */
export function choiceOf(name: KeyName, text: string): Value | undefined {
  return CHOICES.get(name)?.get(text);
}
