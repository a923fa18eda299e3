import { timingSafeEqual } from 'node:crypto';
import type { MiddlewareHandler } from 'hono';
import { getCookie, setCookie } from 'hono/cookie';

/** Nothing from elsewhere, nothing inline, and nobody may frame the page. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "font-src 'self'",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': POLICY,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Cache-Control': 'no-store',
};

const CLOSED =
  'This practice room is open only by the whole address that was printed when it was started. Copy it from there, with its token.';

/**
 * Lets in whoever brings the token once, and then their cookie: no other page and no other program can ask here. The
 * host is checked because a name of somebody else's may be made to lead to this machine.
 */
export function guard(token: string, portOf: () => number): MiddlewareHandler {
  return async (context, next) => {
    for (const [name, value] of Object.entries(HEADERS)) context.header(name, value);
    const port = portOf();
    const host = context.req.header('host') ?? '';
    if (host !== `127.0.0.1:${port}` && host !== `localhost:${port}`) return context.text('Not this host.', 421);
    const origin = context.req.header('origin');
    const writes = context.req.method !== 'GET';
    if (origin === undefined ? writes : origin !== `http://${host}`) {
      return context.text('Only the page of the practice room may ask here.', 403);
    }
    const cookie = `ringwright-practice-${port}`;
    const url = new URL(context.req.url);
    const brought = url.searchParams.get('token');
    if (url.pathname === '/' && brought !== null) {
      if (!same(brought, token)) return context.text(CLOSED, 403);
      setCookie(context, cookie, token, { httpOnly: true, sameSite: 'Strict', path: '/' });
      return context.redirect('/', 303);
    }
    if (!same(getCookie(context, cookie) ?? '', token)) return context.text(CLOSED, 403);
    return next();
  };
}

function same(told: string, token: string): boolean {
  const a = Buffer.from(told);
  const b = Buffer.from(token);
  return a.length === b.length && timingSafeEqual(a, b);
}
