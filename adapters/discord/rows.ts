import type { ActionsBlock, Block, Card } from '../../src/card/card.ts';
import type { RingChoice } from '../../src/card/ring-choices.ts';
import type { Look, Seen } from '../../src/card/views.ts';
import { hasWhy, sectionsOf, type View, viewTitle } from '../../src/card/views.ts';
import { customId, type Press } from './custom-id.ts';
import { label } from './escape.ts';
import { LIMITS } from './limits.ts';
import { type Button, COMPONENT, type Row, type Select, type SelectOption, STYLE } from './wire.ts';

/** The views asked for most, in the order they are looked at; the others stand in a list. */
const FIRST_VIEWS: readonly View[] = ['why', 'chain', 'mount', 'torque', 'weight'];

function viewLabel(view: View): string {
  if (view === 'short') return 'In short';
  return view === 'why' ? 'Why' : viewTitle(view);
}

/** A button, or none where its press does not fit an id. */
export function button(text: string, press: Press, options: { style?: 1 | 2; disabled?: boolean } = {}): Button | null {
  const id = customId(press);
  if (id === null) return null;
  const { style = STYLE.secondary, disabled = false } = options;
  return {
    type: COMPONENT.button,
    style,
    label: label(text, LIMITS.buttonLabel),
    custom_id: id,
    ...(disabled ? { disabled } : {}),
  };
}

/** Rows of at most five buttons each; what could not be made is left out, and no row is empty. */
export function buttonRows(buttons: readonly (Button | null)[]): readonly Row[] {
  const made = buttons.filter((each) => each !== null);
  const rows: Row[] = [];
  for (let from = 0; from < made.length; from += LIMITS.buttonsInRow) {
    rows.push({ type: COMPONENT.row, components: made.slice(from, from + LIMITS.buttonsInRow) });
  }
  return rows;
}

/** A list, or no row where there is nothing in it; what is more than a list holds is left out. */
export function selectRow(press: Press, placeholder: string, options: readonly SelectOption[]): readonly Row[] {
  const id = customId(press);
  if (id === null || options.length === 0) return [];
  const select: Select = {
    type: COMPONENT.select,
    custom_id: id,
    placeholder: label(placeholder, LIMITS.placeholder),
    options: options.slice(0, LIMITS.selectOptions),
  };
  return [{ type: COMPONENT.row, components: [select] }];
}

/** The views of a card besides the short one: buttons for those asked for most, a list for the others. */
export function viewRows(card: Card, look: Look, shown: Seen): readonly Row[] {
  const sections = sectionsOf(card);
  // The page being shown stands in the id, so that it is no other button's.
  const see = (view: View) =>
    button(
      viewLabel(view),
      { kind: 'see', ...look, view, page: view === shown.view ? shown.page : 0 },
      { disabled: view === shown.view },
    );
  const there = (view: View) => (view === 'why' ? hasWhy(card) : sections.some((section) => section === view));
  const first = FIRST_VIEWS.filter(there).map(see);
  const more = sections.filter((section) => !FIRST_VIEWS.includes(section) && section !== 'kept');
  const options = more.map((view) => ({
    label: viewLabel(view),
    value: view,
    ...(view === shown.view ? { default: true } : {}),
  }));
  // A list of one is a button.
  const [only] = more;
  if (more.length === 1 && only !== undefined && first.length < LIMITS.buttonsInRow) {
    return buttonRows([...first, see(only)]);
  }
  return [...buttonRows(first), ...selectRow({ kind: 'pick', what: 'view', ...look }, 'More about it', options)];
}

/** Other rings to look at, in place. */
export function ringRow(rings: readonly RingChoice[], look: Look, teeth: number | null): readonly Row[] {
  if (rings.length < 2) return [];
  return selectRow(
    { kind: 'pick', what: 'ring', ...look },
    'Another ring size',
    rings.map((ring) => ({
      label: label(ring.label, LIMITS.selectLabel),
      value: ring.setup,
      description: label(ring.detail, LIMITS.selectDescription),
      ...(ring.teeth === teeth ? { default: true } : {}),
    })),
  );
}

/** What may be told next, as one list: answers to open questions, other cassettes, other rules. */
export function tellRow(blocks: readonly Block[], rings: readonly RingChoice[], look: Look): readonly Row[] {
  const options = new Map<string, SelectOption>();
  for (const { title, actions } of blocks.filter((block) => block.kind === 'actions')) {
    for (const action of actions) {
      if (rings.some(({ setup }) => setup === action.setup) || action.setup.length > LIMITS.selectValue) continue;
      options.set(action.setup, {
        label: label(action.label, LIMITS.selectLabel),
        value: action.setup,
        description: label(title, LIMITS.selectDescription),
      });
    }
  }
  return selectRow({ kind: 'pick', what: 'tell', ...look }, 'Tell me more, or change one thing', [...options.values()]);
}

/**
 * The answers to one question back: big buttons, or a list where there are more than a row holds. Two questions may have
 * an answer in common, but no two ids may be the same: as many blanks as the number of the question tell them apart, and
 * mean nothing in a line.
 */
export function questionRow({ title, actions }: ActionsBlock, look: Look, number: number): readonly Row[] {
  const apart = ' '.repeat(number);
  if (actions.length <= LIMITS.buttonsInRow) {
    const press = (setup: string): Press => ({ kind: 'do', ...look, setup: `${look.setup}${apart}${setup}` });
    return buttonRows(actions.map((each) => button(each.label, press(each.setup))));
  }
  return selectRow(
    { kind: 'pick', what: 'tell', ...look, setup: `${look.setup}${apart}` },
    title,
    actions.map((each) => ({ label: label(each.label, LIMITS.selectLabel), value: each.setup })),
  );
}

/** The way through the pages, back to the short card, to a correction, and to everybody. */
export function lastRow(
  look: Look,
  { view, page }: Seen,
  pages: number,
  may: { readonly fix: boolean; readonly share: boolean },
): readonly Row[] {
  return buttonRows([
    view === 'short' ? null : button('In short', { kind: 'see', ...look, view: 'short', page: 0 }),
    page > 0 ? button('Previous page', { kind: 'see', ...look, view, page: page - 1 }) : null,
    page < pages - 1
      ? button('Next page', { kind: 'see', ...look, view, page: page + 1 }, { style: STYLE.primary })
      : null,
    may.fix ? button('Correct', { kind: 'fix', ...look }) : null,
    may.share ? button('Share', { kind: 'share', ...look, view, page }, { style: STYLE.primary }) : null,
  ]);
}
