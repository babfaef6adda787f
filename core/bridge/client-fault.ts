/** Why a call has no answer. `refused` is the person's to mend; the rest are the program's or the wire's. */
export type FaultCode = 'unknown-call' | 'bad-input' | 'refused' | 'failed' | 'cancelled' | 'disconnected';

/** What a call rejects with; there is no other kind of rejection. */
export class ClientFault extends Error {
  readonly code: FaultCode;
  readonly where: string;
  readonly help: string;
  /** The refusal's own code when `code` is `refused`, else null. */
  readonly refusalCode: string | null;
  constructor(code: FaultCode, where: string, help: string, refusalCode: string | null = null) {
    super(`${where}: ${help}`);
    this.name = 'ClientFault';
    this.code = code;
    this.where = where;
    this.help = help;
    this.refusalCode = refusalCode;
  }
}
