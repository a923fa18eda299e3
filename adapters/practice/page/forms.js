import { el } from './dom.js';

/** A form of the desk: its fields, and a button that asks. Empty fields are left untold. */
export function formOf(form, prefix, fill) {
  const inputs = form.fields.map((field) => [field.name, inputOf(field, `${prefix}-${field.name}`)]);
  const made = el(
    'form',
    {
      class: 'fields',
      onsubmit: (event) => {
        event.preventDefault();
        const told = inputs.map(([name, { input }]) => [name, input.value.trim()]).filter(([, value]) => value !== '');
        fill(form, Object.fromEntries(told));
      },
    },
    ...inputs.map(([, { row }]) => row),
    el('button', { type: 'submit', class: 'main' }, form.action === null ? 'Ask' : 'Do it'),
  );
  made.setAttribute('aria-label', form.label);
  made.setAttribute('autocomplete', 'off');
  return made;
}

function inputOf({ label, required, long, choices, example }, id) {
  const common = { id, required };
  const input =
    choices.length > 0
      ? el(
          'select',
          common,
          el('option', { value: '' }, 'Not told'),
          ...choices.map((each) => el('option', { value: each }, each)),
        )
      : el(long ? 'textarea' : 'input', { ...common, placeholder: example, rows: long ? 2 : null });
  const words = required ? `${label} (needed)` : label;
  return { input, row: el('p', {}, el('label', { for: id }, words), input) };
}
