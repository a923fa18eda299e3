/** An element with attributes, listeners (`onclick`) and children; a text is only ever text. */
export function el(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
    else node.setAttribute(name, value === true ? '' : String(value));
  }
  node.append(...children);
  return node;
}

export function byId(id) {
  return document.getElementById(id);
}

export function button(label, press, attributes = {}) {
  return el('button', { type: 'button', onclick: press, ...attributes }, label);
}

/** Asks the server; a fault comes back in words, whatever went wrong. */
export async function fetched(path, body) {
  const how =
    body === undefined
      ? {}
      : { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) };
  try {
    const response = await fetch(path, how);
    const type = response.headers.get('content-type') ?? '';
    if (type.startsWith('application/json')) return await response.json();
    return { fault: await response.text() };
  } catch {
    return { fault: 'The practice room does not answer. Is the program that opened it still running?' };
  }
}
