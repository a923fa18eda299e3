/**
 * The version of the rules and tables that answer. It stands on every receipt and every pinned answer; raise it when a
 * change to `src/tables` or `src/solve` can change an answer.
 */
export const RULES = '2026-11.3';
