/** Codes whose class alone says too little. */
const known: ReadonlyMap<number, string> = new Map([
  [-113, 'the meter does not know this command: it needs another profile'],
  [-114, 'the meter has no such input: it needs another profile'],
  [-222, 'this is outside what the meter can do: take that frequency out of the plan or use another meter'],
  [-221, 'the meter is set to something that forbids this: bring it to its start settings'],
  [-230, 'the meter had no fresh reading: read again'],
  [-330, 'the meter failed its own test: do not trust it before it has been looked at'],
  [-350, 'more went wrong than the meter could note: read again'],
  [-363, 'the meter could not keep up: check the speed and the flow control of the port'],
]);

/**
 * What an entry of an SCPI error queue means for the person at the meter. Classes after SCPI-1999, volume 2,
 * SYSTem:ERRor: -1xx command, -2xx execution, -3xx device, -4xx query, positive: the maker's own.
 */
export function scpiErrorHelp(errorCode: number): string {
  const special = known.get(errorCode);
  if (special !== undefined) return special;
  if (errorCode > 0) return "see the meter's manual for this code, then read again";
  if (errorCode > -200) return 'the meter did not understand the command: it may need another profile';
  if (errorCode > -300)
    return 'the meter could not do it as it is set now: look at its display, then read again';
  if (errorCode > -400) return 'the meter itself has a problem: switch it off and on, then connect it again';
  return 'question and answer got out of step: connect the meter again';
}
