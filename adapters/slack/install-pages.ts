const STYLE =
  'body{font:1.1rem/1.5 system-ui,sans-serif;max-width:34rem;margin:3rem auto;padding:0 1rem;background:#f8f6f0;color:#1b2026}' +
  'a{color:#a1380f}code{background:#fff;padding:.1rem .3rem}';

function html(title: string, body: string): string {
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${title}</title><style>${STYLE}</style></head><body><h1>${title}</h1>${body}</body></html>`;
}

/** The page that leads to the platform's own question whether to install. */
export function installPage(address: string): string {
  const href = address.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');
  return html(
    'Add Ringwright to your workspace',
    `<p>A workshop assistant for converting a bicycle to a single ring. Its answers are private until somebody shares them.</p><p><a href="${href}">Go on to the platform</a></p>`,
  );
}

/** What whoever installed it does first; nobody else is written to. */
export function successPage(): string {
  return html(
    'Ringwright is installed',
    '<p>Nothing was posted anywhere. To try it, in any channel:</p><p><code>/ringwright convert 2x10 36/22 11-36 29er hardtail 104bcd</code></p><p>Its Home tab says how to ask, and what is kept. Admins may pin standard answers; to let others:</p><p><code>/ringwright settings change pinpeople=+@somebody</code></p>',
  );
}

export function failurePage(): string {
  return html(
    'Ringwright was not installed',
    '<p>The platform did not confirm it, or the page was open for too long. Nothing was changed: start again from the first page.</p>',
  );
}
