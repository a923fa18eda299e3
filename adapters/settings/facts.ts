import { z } from 'zod';

/** What a person wants to know of a setting. */
export type Facts = {
  /** What it is for, without a full stop at its end. */
  readonly purpose: string;
  /** The page it is read from or made on; without it, whoever runs the program decides. */
  readonly from?: string;
  /** What holds without it, where that is no value but a rule. */
  readonly usual?: string;
  /** What somebody might write; a secret has none, so that nobody starts with a secret everybody knows. */
  readonly example?: string;
  /** A secret is never shown, and may also stand in a file. */
  readonly secret?: true;
  /** What cannot be done without it; one that has this says that its platform is wanted. */
  readonly neededFor?: string;
};

const FACTS = z.registry<Facts>();

/** A setting: the shape its text must have, and what is to be known of it. */
export function setting<Shape extends z.ZodType>(shape: Shape, facts: Facts): Shape {
  const any: z.ZodType = shape;
  FACTS.add(any, facts);
  return shape;
}

export function factsOf(shape: z.core.$ZodType): Facts {
  const facts = FACTS.get(shape);
  if (facts === undefined) throw new TypeError('a setting without facts');
  return facts;
}

/** What holds where the setting is not set, as a person reads it; null where nothing does. */
export function usualOf(shape: z.core.$ZodType): string | null {
  const { usual } = factsOf(shape);
  if (usual !== undefined) return usual;
  return shape instanceof z.ZodDefault ? `\`${String(shape.def.defaultValue)}\`` : null;
}
