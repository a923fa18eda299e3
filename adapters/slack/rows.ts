import type { ActionsBlock, Card, Block as CardBlock } from '../../src/card/card.ts';
import type { RingChoice } from '../../src/card/ring-choices.ts';
import type { Look, Seen } from '../../src/card/views.ts';
import { hasWhy, sectionsOf, type View, viewTitle } from '../../src/card/views.ts';
import { label, type Names, NO_NAMES } from './escape.ts';
import { LIMITS } from './limits.ts';
import { type Press, writePress } from './press.ts';
import type { Actions, Button, Option, StaticSelect } from './wire.ts';

/** A button or a list to be; its `action_id` is given when it stands in a message. */
export type Offer = { readonly label: string; readonly press: Press; readonly style?: 'primary' | 'danger' };

/** The views asked for most, in the order they are looked at; the others stand in a list. */
const FIRST_VIEWS: readonly View[] = ['why', 'chain', 'mount', 'torque', 'weight'];

/** As many as still stand together on a phone. */
const BUTTONS_TOGETHER = 5;

/** The page a button must still be able to name. */
export const LAST_PAGE = 999;

function viewLabel(view: View): string {
  if (view === 'short') return 'In short';
  return view === 'why' ? 'Why' : viewTitle(view);
}

/** Rows of buttons, a few in each; a press that is too long to travel becomes none. */
export function buttonRows(
  offers: readonly (Offer | null)[],
  row: string,
  names: Names = NO_NAMES,
): readonly Actions[] {
  const buttons = offers.flatMap((offer, index): Button[] => {
    const value = offer === null ? null : writePress(offer.press);
    if (offer === null || value === null) return [];
    const text = label(offer.label, LIMITS.buttonText, names);
    const style = offer.style === undefined ? {} : { style: offer.style };
    return [{ type: 'button', text, action_id: `${row}-${index}`, value, ...style }];
  });
  const rows: Actions[] = [];
  for (let from = 0; from < buttons.length; from += BUTTONS_TOGETHER) {
    rows.push({ type: 'actions', elements: buttons.slice(from, from + BUTTONS_TOGETHER) });
  }
  return rows;
}

function select(
  press: Press,
  placeholder: string,
  options: readonly Option[],
  value?: string,
): readonly StaticSelect[] {
  const action_id = writePress(press, LIMITS.id);
  if (action_id === null || options.length === 0) return [];
  const initial = options.find((each) => each.value === value);
  return [
    {
      type: 'static_select',
      action_id,
      placeholder: label(placeholder, LIMITS.placeholder),
      options: options.slice(0, LIMITS.options),
      ...(initial === undefined ? {} : { initial_option: initial }),
    },
  ];
}

function option(text: string, value: string, description = ''): Option {
  return {
    text: label(text, LIMITS.optionText),
    value,
    ...(description === '' ? {} : { description: label(description, LIMITS.optionDescription) }),
  };
}

function isPickable({ setup }: { readonly setup: string }): boolean {
  return setup.length > 0 && setup.length <= LIMITS.optionValue;
}

function selectRow(selects: readonly StaticSelect[]): readonly Actions[] {
  return selects.length === 0 ? [] : [{ type: 'actions', elements: selects }];
}

/** The views of a card besides the short one: buttons for those asked for most, a list for the others. */
export function viewRows(card: Card, look: Look, shown: View): readonly Actions[] {
  const sections: readonly View[] = sectionsOf(card).filter((section) => section !== 'kept');
  const there = (view: View) => (view === 'why' ? hasWhy(card) : sections.includes(view));
  const first = FIRST_VIEWS.filter((view) => there(view) && view !== shown);
  const more = sections.filter((section) => !FIRST_VIEWS.includes(section));
  const see = (view: View): Offer => ({ label: viewLabel(view), press: { kind: 'see', ...look, view, page: 0 } });
  const options = more.map((view) => option(viewLabel(view), view));
  // A list of one is a button.
  const [only, ...others] = more;
  if (only !== undefined && others.length === 0) {
    return buttonRows([...first, ...(only === shown ? [] : [only])].map(see), 'view');
  }
  return [
    ...buttonRows(first.map(see), 'view'),
    ...selectRow(select({ kind: 'pick', what: 'view', ...look }, 'More about it', options, shown)),
  ];
}

/** Other rings to look at, and what else may be told next, as lists. */
export function tellRows(
  blocks: readonly CardBlock[],
  rings: readonly RingChoice[],
  look: Look,
  teeth: number | null,
): readonly Actions[] {
  const sizes =
    rings.length < 2
      ? []
      : select(
          { kind: 'pick', what: 'ring', ...look },
          'Another ring size',
          rings.map((ring) => option(ring.label, ring.setup, ring.detail)),
          rings.find((ring) => ring.teeth === teeth)?.setup,
        );
  const told = new Map<string, Option>();
  for (const { title, actions } of blocks.filter((block) => block.kind === 'actions')) {
    for (const action of actions) {
      if (rings.some(({ setup }) => setup === action.setup) || !isPickable(action)) continue;
      told.set(action.setup, option(action.label, action.setup, title));
    }
  }
  const tell = select({ kind: 'pick', what: 'tell', ...look }, 'Tell me more, or change one thing', [...told.values()]);
  return selectRow([...sizes, ...tell]);
}

/** The answers to one question back: big buttons, or a list where there are many. */
export function questionRow({ title, actions }: ActionsBlock, look: Look, index: number): readonly Actions[] {
  // One list a message: two of the same press could not be told apart.
  if (actions.length > BUTTONS_TOGETHER && index === 0 && actions.every(isPickable)) {
    const options = actions.map((each) => option(each.label, each.setup));
    return selectRow(select({ kind: 'pick', what: 'tell', ...look }, title, options));
  }
  const offers = actions.map(
    (each): Offer => ({
      label: each.label,
      press: { kind: 'do', command: look.command, setup: `${look.setup} ${each.setup}` },
    }),
  );
  return buttonRows(offers, `question${index}`);
}

/** The way through the pages, back to the short card, to a correction, and to everybody. */
export function lastRow(
  look: Look,
  { view, page }: Seen,
  pages: number,
  may: { readonly fix: boolean; readonly share: boolean },
): readonly Actions[] {
  return buttonRows(
    [
      view === 'short' ? null : { label: 'In short', press: { kind: 'see', ...look, view: 'short', page: 0 } },
      page > 0 ? { label: 'Previous page', press: { kind: 'see', ...look, view, page: page - 1 } } : null,
      page < pages - 1
        ? { label: 'Next page', press: { kind: 'see', ...look, view, page: page + 1 }, style: 'primary' }
        : null,
      may.fix ? { label: 'Correct', press: { kind: 'fix', ...look } } : null,
      may.share ? { label: 'Share', press: { kind: 'share', ...look, view, page }, style: 'primary' } : null,
    ],
    'last',
  );
}
