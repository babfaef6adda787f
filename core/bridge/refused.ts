import type { Refusal } from '../result.ts';

/** A refusal on its way out of a handler: dispatch turns it into a reply that keeps what, where and help. */
export class Refused extends Error {
  readonly refusal: Refusal;
  constructor(refusal: Refusal) {
    super(`${refusal.where}: ${refusal.help}`);
    this.name = 'Refused';
    this.refusal = refusal;
  }
}
