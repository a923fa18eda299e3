/**
 * Where something is kept: the terminal, one chat server, one workspace. Nothing is ever read across places. A place is
 * never made from a person's id (a private conversation has a channel id of its own), so that deleting a person leaves
 * no place behind that names them.
 */
export type Place = string & { readonly __place: true };

/** A person as their platform knows them. It says who somebody is only together with a place. */
export type Person = string & { readonly __person: true };

/** Somebody somewhere: the owner of what is kept, or the author of a change. */
export type Who = { readonly place: Place; readonly person: Person };

/** Who did something; `gone` is somebody whose data was deleted. */
export type Author = { readonly kind: 'person'; readonly person: Person } | { readonly kind: 'gone' };

/** Platform ids are far shorter; a longer one is a mistake in an adapter, not a person. */
const LONGEST_ID = 100;

/** The place an adapter names, "terminal" or "kind:id"; null when it cannot be one. */
export function readPlace(text: string): Place | null {
  return isPlace(text) ? text : null;
}

/** The person an adapter names; null when it cannot be one. */
export function readPerson(text: string): Person | null {
  return isPerson(text) ? text : null;
}

function isPlace(text: string): text is Place {
  return isId(text);
}

function isPerson(text: string): text is Person {
  return isId(text);
}

/** No blanks and no control characters: neither engine nor log can then read an id in two ways. */
function isId(text: string): boolean {
  return text.length > 0 && text.length <= LONGEST_ID && /^[\p{L}\p{N}\p{P}\p{S}]+$/u.test(text);
}
