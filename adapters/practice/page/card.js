import { button, el } from './dom.js';
import { formOf } from './forms.js';

/** An answer as a sheet: the answer, what was read, the few facts, then its parts to open. */
export function cardOf(shown, asked, does) {
  const heading = el('h3', { tabindex: '-1', class: 'answer' }, shown.answer);
  const sheet = el('article', { class: `sheet ${shown.kind}`, 'data-id': shown.id });
  sheet.append(heading);
  if (shown.lines.length > 0) sheet.append(linesOf(shown.lines, 'facts'));
  if (shown.readBack !== '') sheet.append(el('p', { class: 'quiet' }, shown.readBack));
  sheet.append(...shown.blocks.map((block) => blockOf(block, shown, does)));
  if (shown.rings.length > 0) sheet.append(ringSelect(shown, does));
  sheet.append(...shown.sections.map((section) => sectionOf(section, shown, does)));
  if (shown.forms.length > 0) sheet.append(signing(shown, does));
  if (shown.kind === 'refused') sheet.append(refusedButtons(shown, asked, does));
  sheet.append(foot(shown, does));
  return { sheet, heading };
}

function linesOf(lines, name) {
  return el('ul', { class: name }, ...lines.map((line) => el('li', {}, line)));
}

function sectionOf({ name, title, blocks }, shown, does) {
  const count = blocks.filter((block) => block.kind === 'caution').length;
  const cautions = count === 0 ? '' : count === 1 ? ' (1 caution)' : ` (${count} cautions)`;
  const details = el('details', { class: 'part', 'data-part': name });
  details.append(el('summary', {}, title, el('span', { class: 'quiet' }, cautions)));
  details.append(...blocks.map((block) => blockOf(block, shown, does)));
  return details;
}

function blockOf(block, shown, does) {
  switch (block.kind) {
    case 'text':
      return group(block.title, linesOf(block.lines, 'lines'));
    case 'table':
      return tableOf(block);
    case 'checklist':
      return group(block.title, el('ol', { class: 'checks' }, ...block.items.map(checkOf)));
    case 'caution':
      return el(
        'p',
        { class: `caution ${block.level}` },
        el('strong', {}, block.level === 'stop' ? 'STOP: ' : 'Take care: '),
        block.text,
      );
    case 'actions':
      return group(block.title, el('ul', { class: 'buttons' }, ...block.offers.map((offer) => offerOf(offer, does))));
    case 'figure':
      return figureOf(block, shown);
    case 'working':
      return el('dl', { class: 'working' }, ...block.steps.flatMap(stepOf));
  }
  return el('p', {}, '');
}

function group(title, body) {
  return title === undefined ? body : el('section', { class: 'block' }, el('h4', {}, title), body);
}

function checkOf({ text, detail }) {
  const item = el('li', {}, text);
  if (detail !== undefined) item.append(el('span', { class: 'detail' }, detail));
  return item;
}

/** Where something must be filled in first, its form opens below the button. */
function offerOf(offer, does) {
  if (offer.form === undefined)
    return el(
      'li',
      {},
      button(offer.label, () => does.press(offer)),
    );
  const place = el('div', {});
  const opens = button(offer.label, () => openForm(place, offer.form, does));
  return el('li', {}, opens, place);
}

let formsOpened = 0;

function openForm(place, form, does) {
  formsOpened += 1;
  place.replaceChildren(formOf(form, `fill-${formsOpened}`, does.fill));
  place.querySelector('input, select, textarea')?.focus();
}

/** On a narrow screen each row stands as a paragraph; the roles keep it a table all the same. */
function tableOf({ title, columns, rows }) {
  const head = el(
    'tr',
    { role: 'row' },
    ...columns.map((each) => el('th', { role: 'columnheader', scope: 'col' }, each)),
  );
  const body = rows.map((row) =>
    el(
      'tr',
      { role: 'row' },
      ...row.map((cell, index) =>
        index === 0
          ? el('th', { role: 'rowheader', scope: 'row' }, cell)
          : el('td', { role: 'cell', 'data-column': columns[index] ?? '' }, cell),
      ),
    ),
  );
  return el(
    'table',
    { role: 'table' },
    el('caption', {}, title),
    el('thead', { role: 'rowgroup' }, head),
    el('tbody', { role: 'rowgroup' }, ...body),
  );
}

function figureOf({ title, alt, index }, { id }) {
  const address = (theme) => `/picture?id=${encodeURIComponent(id)}&figure=${index}&theme=${theme}`;
  const picture = el(
    'picture',
    {},
    el('source', { media: '(prefers-color-scheme: dark)', srcset: address('dark') }),
    el('img', { src: address('light'), alt, loading: 'lazy' }),
  );
  return el('figure', {}, picture, el('figcaption', {}, title));
}

function stepOf({ quantity, formula, numbers, result, source }) {
  return [
    el('dt', {}, quantity),
    el('dd', {}, formula),
    el('dd', {}, `with your numbers: ${numbers}`),
    el('dd', { class: 'result' }, `= ${result}`),
    el('dd', { class: 'quiet' }, `source: ${source}`),
  ];
}

function ringSelect(shown, does) {
  const id = `rings-${shown.id}`;
  const select = el('select', { id }, ...shown.rings.map((each, index) => el('option', { value: index }, each.label)));
  const look = button('Look at it', () => does.press(shown.rings[Number(select.value)]));
  return el('div', { class: 'row' }, el('label', { for: id }, 'Another ring'), select, look);
}

function signing(shown, does) {
  const place = el('div', {});
  const offers = shown.forms.map((form) =>
    el(
      'li',
      {},
      button(form.label, () => openForm(place, form, does)),
    ),
  );
  return group('Sign a row', el('div', {}, el('ul', { class: 'buttons' }, ...offers), place));
}

function refusedButtons(shown, asked, does) {
  const buttons = [
    el(
      'li',
      {},
      button('Correct my words', () => does.put(asked.line)),
    ),
  ];
  if (shown.example !== null) {
    buttons.push(
      el(
        'li',
        {},
        button(`Use the example: ${shown.example}`, () => does.put(shown.example)),
      ),
    );
  }
  return el('ul', { class: 'buttons' }, ...buttons);
}

/** The title block of the sheet: the code to come back by, the rules, and what would be sent. */
function foot(shown, does) {
  const cells = el('div', { class: 'foot' });
  if (shown.code !== null) {
    cells.append(el('span', {}, `Code #${shown.code}`), el('span', {}, `rules ${shown.rules}`));
  } else if (shown.goesOn) {
    cells.append(el('span', {}, 'No code: nothing could be kept just now'));
  }
  if (shown.print !== null) {
    cells.append(
      el('a', { href: `/print?id=${encodeURIComponent(shown.id)}`, download: shown.print }, 'The page to print (PDF)'),
    );
  }
  cells.append(button('What would be sent', () => does.sent(shown.id)));
  return cells;
}
