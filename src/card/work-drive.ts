type Item = { readonly text: string; readonly detail?: string };

type Assist = 'hub' | 'mid-drive' | 'yes' | null;

/** What comes before everything else on a bike with a motor. */
export function batteryOut(assist: Assist): readonly Item[] {
  if (assist === null) return [];
  return [{ text: 'Assist off, battery out.', detail: 'Before a crank or a wheel is turned by hand.' }];
}

/** The ring at a motor: its maker's way from beginning to end. */
export function ringAtTheMotor(ringTeeth: number): readonly Item[] {
  return [
    {
      text: "Crank arm and ring off the way the drive unit's maker says.",
      detail: 'With its tools; the unit itself stays closed.',
    },
    { text: 'Degrease splines or spider before the new ring goes on.' },
    {
      text: `Fit the ${ringTeeth}T ring from the maker's list, then the crank arm.`,
      detail: "Lockring, bolts and arm by the drive unit maker's figures only.",
    },
  ];
}

/** Which crank of a tandem the work is at, and what of it stays. */
export function tandemCrank(tandem: boolean): readonly Item[] {
  if (!tandem) return [];
  return [
    {
      text: 'Tandem: work at the rear crank, on the right.',
      detail: 'Timing chain, its two rings and the left arms stay as they are.',
    },
  ];
}

/** What to look at afterwards because of a motor or a second rider. */
export function driveChecks(assist: Assist, tandem: boolean): readonly Item[] {
  const items: Item[] = [];
  if (assist !== null) items.push({ text: 'Battery back in; try the assist at walking pace, away from traffic.' });
  if (tandem) items.push({ text: 'Turn both cranks: the timing chain runs as before, the arms as they stood.' });
  return items;
}
