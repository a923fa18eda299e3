import { button, byId, el } from './dom.js';

const DISMISSED = 'ringwright-tour-dismissed';

/** A tour of a few steps that can be left at any time, and is not shown again by itself. */
export function openTour(steps, run) {
  const place = byId('tour');
  let at = 0;

  const leave = () => {
    place.hidden = true;
    place.replaceChildren();
    remember();
    byId('line').focus();
  };

  const show = (index, reads = true) => {
    at = index;
    const step = steps[at];
    const title = el('h2', { id: 'tour-title', tabindex: '-1' }, `Step ${at + 1} of ${steps.length}: ${step.title}`);
    const buttons = [];
    if (step.line !== '') buttons.push(button('Do it for me', doIt, { class: 'main' }));
    if (at > 0) buttons.push(button('Back', () => show(at - 1)));
    if (at < steps.length - 1) buttons.push(button('Next step', () => show(at + 1)));
    buttons.push(button(at < steps.length - 1 ? 'Leave the tour' : 'Finish', leave));
    place.replaceChildren(
      title,
      el('p', {}, step.text),
      el('ul', { class: 'buttons' }, ...buttons.map((each) => el('li', {}, each))),
    );
    place.hidden = false;
    if (reads) title.focus();
  };

  /** The next step then stands below the answer that this one brought. */
  const doIt = async () => {
    await run(steps[at]);
    byId('conversation').append(place);
    if (at < steps.length - 1) show(at + 1, false);
  };

  byId('tour-open').addEventListener('click', () => {
    byId('ready').after(place);
    show(0);
  });
  place.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') leave();
  });
  if (!dismissed()) {
    show(0, false);
  }
}

/** A browser may forbid to keep anything; then the tour simply shows again. */
function dismissed() {
  try {
    return localStorage.getItem(DISMISSED) !== null;
  } catch {
    return false;
  }
}

function remember() {
  try {
    localStorage.setItem(DISMISSED, 'yes');
  } catch {
    // Nothing is lost but a little patience.
  }
}
