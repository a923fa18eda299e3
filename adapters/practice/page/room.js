import { cardOf } from './card.js';
import { openComposer } from './composer.js';
import { button, byId, el, fetched } from './dom.js';
import { formOf } from './forms.js';
import { openTour } from './tour.js';

const role = byId('role');
const conversation = byId('conversation');
/** The answer whose bike is being spoken of. */
let after = null;

const room = await fetched('/room');
if (room.fault === undefined) open();
else say(room.fault);

function open() {
  role.append(...room.roles.map(({ name, label }) => el('option', { value: name }, label)));
  const tellRole = () => {
    byId('may').textContent = room.roles.find(({ name }) => name === role.value).may;
  };
  role.addEventListener('change', tellRole);
  tellRole();

  const composer = openComposer(
    () => role.value,
    (line) => ask({ line, after }, { label: line, line }, 'composer'),
  );
  const does = {
    press: ({ label, command, setup }) =>
      ask({ command, setup, options: {}, after }, { label, line: `${command} ${setup}` }, 'card'),
    fill: (form, told) => {
      const { setup = '', ...fields } = form.action === null ? told : {};
      const options = form.action === null ? fields : { action: form.action, ...form.told, ...told };
      const label = form.action === null ? form.command : form.label;
      ask(
        { command: form.command, setup, options, after },
        { label, line: typed(form, { ...form.told, ...told }) },
        'card',
      );
    },
    put: (line) => composer.put(line),
    sent: showSent,
  };

  async function ask(told, asked, from) {
    const question = el(
      'p',
      { class: 'asked' },
      el('strong', {}, `${role.selectedOptions[0].textContent}: `),
      asked.label,
    );
    conversation.append(question);
    conversation.setAttribute('aria-busy', 'true');
    const shown = await fetched('/ask', { role: role.value, ...told });
    conversation.removeAttribute('aria-busy');
    if (shown.fault !== undefined) {
      say(shown.fault);
      composer.put(asked.line);
      return;
    }
    const { sheet, heading } = cardOf(shown, asked, does);
    conversation.append(sheet);
    if (shown.goesOn) goOn(shown);
    byId('status').textContent = shown.answer;
    // Whoever pressed something in a sheet goes on reading in the new one; whoever typed goes on typing.
    if (from === 'card') heading.focus({ preventScroll: true });
    question.scrollIntoView({ block: 'start', behavior: calm() ? 'auto' : 'smooth' });
  }

  byId('ready-list').append(
    ...room.ready.map(({ label, line }) =>
      el(
        'li',
        {},
        button(label, () => ask({ line, after: null }, { label: line, line }, 'card')),
      ),
    ),
  );
  byId('new-bike').addEventListener('click', () => {
    goOn(null);
    byId('line').focus();
  });
  openForms(does);
  openErase();
  byId('sent-close').addEventListener('click', () => byId('sent').close());
  openTour(room.tour, (step) => {
    role.value = step.role;
    tellRole();
    const begins = step.line.startsWith('convert');
    return ask({ line: step.line, after: begins ? null : after }, { label: step.line, line: step.line }, 'card');
  });
}

function goOn(shown) {
  after = shown === null ? null : shown.id;
  byId('going-on').hidden = shown === null;
  byId('going-on-words').textContent =
    shown === null ? '' : `Going on with ${shown.code === null ? 'the bike above' : `#${shown.code}`}.`;
}

function openForms(does) {
  const choice = byId('form-choice');
  choice.append(...room.forms.map(({ label }, index) => el('option', { value: index }, label)));
  const show = () => {
    const fill = (form, told) => {
      byId('forms').open = false;
      does.fill(form, told);
    };
    byId('form-place').replaceChildren(formOf(room.forms[Number(choice.value)], 'form', fill));
  };
  choice.addEventListener('change', show);
  show();
}

/** A filled form as one would have typed it. */
function typed({ command, action }, told) {
  const fields = Object.entries(told).map(([name, value]) =>
    name === 'setup' ? value : `${name}=${/[\s,]/.test(value) ? `"${value}"` : value}`,
  );
  return [command, ...(action === null ? [] : [action]), ...fields].join(' ');
}

async function showSent(id) {
  const sent = await fetched(`/sent?id=${encodeURIComponent(id)}`);
  const parts =
    sent.fault === undefined
      ? Object.entries(sent).map(([name, payload]) =>
          el(
            'details',
            { open: true },
            el('summary', {}, name),
            el('pre', { tabindex: '0', 'aria-label': `Message for ${name}` }, JSON.stringify(payload, null, 2)),
          ),
        )
      : [el('p', {}, sent.fault)];
  byId('sent-place').replaceChildren(...parts);
  byId('sent').showModal();
}

function openErase() {
  const dialog = byId('erase');
  byId('erase-open').addEventListener('click', () => dialog.showModal());
  byId('erase-no').addEventListener('click', () => dialog.close());
  byId('erase-yes').addEventListener('click', async () => {
    const done = await fetched('/erase', {});
    dialog.close();
    if (done.fault === undefined) {
      byId('ready').after(byId('tour'));
      conversation.replaceChildren();
      goOn(null);
    }
    say(done.fault ?? 'The practice data is erased.');
  });
}

/** Something that is no answer: seen, and heard. */
function say(words) {
  conversation.append(el('p', { class: 'said' }, words));
  byId('status').textContent = words;
}

function calm() {
  return matchMedia('(prefers-reduced-motion: reduce)').matches;
}
