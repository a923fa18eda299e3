/** Where the records are: a PostgreSQL server by its URL, or one SQLite file. */
export type Where = { readonly path: string } | { readonly url: string };

/** The environment, as far as it says where things are kept. */
export type KeptEnv = {
  /** A PostgreSQL server that any number of processes share. */
  readonly DATABASE_URL?: string | undefined;
  /** The one visible folder that a single machine keeps things in. */
  readonly RINGWRIGHT_DATA?: string | undefined;
};

export const USUAL_FOLDER = 'data';
const FILE = 'records.db';

/** PostgreSQL when the environment names a server, else one file in the named folder, else in `data`; blank is not named. */
export function whereKept({ DATABASE_URL, RINGWRIGHT_DATA }: KeptEnv): Where {
  if (DATABASE_URL !== undefined && DATABASE_URL.trim() !== '') return { url: DATABASE_URL };
  const folder = RINGWRIGHT_DATA === undefined || RINGWRIGHT_DATA.trim() === '' ? USUAL_FOLDER : RINGWRIGHT_DATA;
  return { path: `${folder}/${FILE}` };
}
