/** Licence expressions by the published grammar (SPDX, annex "License expressions"); the packages bring no types. */
declare module 'spdx-satisfies' {
  /** Throws where the expression is none. */
  const satisfies: (expression: string, allowed: readonly string[]) => boolean;
  export = satisfies;
}

declare module 'spdx-expression-parse' {
  type Parsed =
    | { readonly license: string; readonly plus?: true; readonly exception?: string }
    | { readonly left: Parsed; readonly conjunction: 'and' | 'or'; readonly right: Parsed };
  /** Throws where the expression is none. */
  const parse: (expression: string) => Parsed;
  export = parse;
}
