/** What a person gets when their input can't be taken: what, where, and what would help. Never thrown inside core. */
export type Refusal<Code extends string = string> = Readonly<{
  ok: false;
  code: Code;
  where: string;
  help: string;
}>;

export type Result<T, Code extends string = string> = Readonly<{ ok: true; value: T }> | Refusal<Code>;

/**
 * The good half of a result.
 * @returns  the value, marked as done
 * @source   DEVELOPERS.md, "Refusals and faults"
 */
export const done = <T>(value: T) => ({ ok: true, value }) as const;

/**
 * The other half: a person's mistake as a value.
 * @param where  file, line, column, position or key: the place to look at
 * @param help   what would make it certain or possible
 * @returns      the refusal
 * @source       DEVELOPERS.md, "Refusals and faults"
 */
export const refuse = <Code extends string>(code: Code, where: string, help: string): Refusal<Code> => ({
  ok: false,
  code,
  where,
  help,
});

/**
 * A refusal as the one line that a person reads.
 * @returns  "where: help"
 * @source   contract, section 3: one line, what, where, what would help
 */
export const refusalLine = (refusal: Refusal): string => `${refusal.where}: ${refusal.help}`;
