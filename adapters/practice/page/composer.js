import { byId, el, fetched } from './dom.js';

/** How long typing must rest before the next words are looked up. */
const REST_MS = 120;

/** The line with its completion: a combobox that works by keyboard alone. */
export function openComposer(role, submit) {
  const line = byId('line');
  const list = byId('completions');
  let offered = [];
  let active = -1;
  let timer = 0;
  let latest = 0;

  const close = () => {
    latest += 1;
    clearTimeout(timer);
    offered = [];
    active = -1;
    list.hidden = true;
    list.replaceChildren();
    line.setAttribute('aria-expanded', 'false');
    line.removeAttribute('aria-activedescendant');
  };

  const activate = (index) => {
    active = index;
    for (const [at, option] of [...list.children].entries()) {
      option.setAttribute('aria-selected', String(at === active));
      if (at === active) option.scrollIntoView({ block: 'nearest' });
    }
    if (active === -1) line.removeAttribute('aria-activedescendant');
    else line.setAttribute('aria-activedescendant', `completion-${active}`);
  };

  const take = (index) => {
    line.value = offered[index].line;
    line.focus();
    close();
    look();
  };

  const show = (completions) => {
    offered = completions;
    active = -1;
    list.replaceChildren(
      ...completions.map(({ label }, index) =>
        el(
          'div',
          {
            id: `completion-${index}`,
            role: 'option',
            'aria-selected': 'false',
            onmousedown: (event) => {
              event.preventDefault();
              take(index);
            },
          },
          label,
        ),
      ),
    );
    list.hidden = completions.length === 0;
    line.setAttribute('aria-expanded', String(completions.length > 0));
  };

  const look = () => {
    clearTimeout(timer);
    latest += 1;
    const mine = latest;
    timer = setTimeout(async () => {
      const query = new URLSearchParams({ role: role(), line: line.value });
      const { completions = [] } = await fetched(`/complete?${query}`);
      if (mine === latest && document.activeElement === line) show(completions);
    }, REST_MS);
  };

  line.addEventListener('input', look);
  line.addEventListener('blur', close);
  line.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') close();
    if (event.key === 'ArrowDown' && offered.length === 0) look();
    if ((event.key !== 'ArrowDown' && event.key !== 'ArrowUp') || offered.length === 0) return;
    event.preventDefault();
    const step = event.key === 'ArrowDown' ? 1 : -1;
    const next = active + step;
    activate(next >= offered.length ? -1 : next < -1 ? offered.length - 1 : next);
  });
  byId('composer').addEventListener('submit', (event) => {
    event.preventDefault();
    if (active !== -1) {
      take(active);
      return;
    }
    const typed = line.value.trim();
    close();
    if (typed === '') {
      line.focus();
      return;
    }
    line.value = '';
    submit(typed);
  });

  return {
    put: (text) => {
      line.value = text;
      line.focus();
    },
  };
}
