import fc from 'fast-check';

/**
 * Any number there is, half of the time one that could come from a person: so that a property "finite or refused" tries
 * both what is refused and what is answered.
 */
export const anyNumber = fc.oneof(
  fc.double(),
  fc.double({ min: -150, max: 150, noNaN: true }),
  fc.double({ min: 0, max: 1500, noNaN: true }),
  fc.integer({ min: -3, max: 200 }),
);
