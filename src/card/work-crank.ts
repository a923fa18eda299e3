type CrankType = 'pinch' | 'taper' | 'splined' | null;
type Item = { readonly text: string; readonly detail?: string };

const OFF: Readonly<Record<'pinch' | 'taper' | 'splined', readonly Item[]>> = {
  pinch: [
    { text: 'Ease both pinch bolts by turns, a little each.' },
    { text: 'Unscrew the cap, lift the retaining plate, pull that arm off.' },
    {
      text: 'Drive the axle out on the ring side, with a soft-faced hammer on its end.',
      detail: 'Never hit or lever against a ring.',
    },
  ],
  taper: [
    { text: 'Undo the crank bolt on the ring side.' },
    {
      text: 'Pull the arm off with a puller for square tapers.',
      detail: 'Screw it in to the end of its thread before you push.',
    },
  ],
  splined: [
    { text: 'Undo the crank bolt on the ring side.', detail: 'In many the bolt pulls the arm off as it turns out.' },
    { text: 'If it does not, use a puller for splined axles.' },
  ],
};

const ON: Readonly<Record<'pinch' | 'taper' | 'splined', readonly Item[]>> = {
  pinch: [
    { text: 'Thin film of grease on the axle, then push it home.' },
    {
      text: 'Set the cap by hand: all play gone, no drag in the bearing.',
      detail: 'Then the retaining plate back down.',
    },
    { text: 'Only now the pinch bolts, by turns in small steps, to torque.' },
  ],
  taper: [
    {
      text: 'Arm back on its taper, bolt to torque.',
      detail: "Dry or greased as the crank's maker says. Never ride on a loose taper: it ruins the arm.",
    },
  ],
  splined: [{ text: 'Line the splines up by hand first, then the bolt to torque.' }],
};

const UNKNOWN_OFF: readonly Item[] = [
  {
    text: 'Take the ring-side crank off the way its kind asks.',
    detail: 'Two pinch bolts, a square taper or a splined axle: say which and the steps are listed.',
  },
];

const UNKNOWN_ON: readonly Item[] = [{ text: 'Crank back on, its bolts to torque.' }];

/** The steps that take the crank off. */
export function crankOff(type: CrankType): readonly Item[] {
  return type === null ? UNKNOWN_OFF : OFF[type];
}

/** The steps that put the crank on again. */
export function crankOn(type: CrankType): readonly Item[] {
  return type === null ? UNKNOWN_ON : ON[type];
}

/** What the crank wants beyond hex keys. */
export function crankTools(type: CrankType): readonly string[] {
  switch (type) {
    case 'pinch':
      return ['5 mm hex key for the pinch bolts, key for the preload cap', 'Soft-faced hammer'];
    case 'taper':
      return ['Crank puller for square tapers; 8 mm hex key or 14 mm socket'];
    case 'splined':
      return ['8 mm hex key; crank puller for splined axles if not self-pulling'];
    case null:
      return ['By crank: key for the preload cap, or a puller for its axle'];
  }
}
