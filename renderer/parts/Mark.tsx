export type Verdict = 'pass' | 'fail' | 'undecided' | 'unknown';
export type MarkProps = Readonly<{ verdict: Verdict; pointing?: 'up' | 'down'; size?: 'small' | 'large' }>;

/** A verdict's shape: a filled disc with a tick, a triangle, a disc half in and half out, an empty ring. The word stands beside it. */
export function Mark({ verdict, pointing = 'down', size = 'small' }: MarkProps) {
  return (
    <svg className={`mark mark--${verdict} mark--${size}`} viewBox="0 0 24 24" aria-hidden="true">
      {verdict === 'pass' && (
        <>
          <circle cx="12" cy="12" r="10.5" className="mark__fill" />
          <path d="M7 12.4 10.6 16 17.2 8.6" className="mark__cut" />
        </>
      )}
      {verdict === 'fail' && (
        <path d={pointing === 'down' ? 'M1.5 4h21L12 21.5Z' : 'M1.5 20h21L12 2.5Z'} className="mark__fill" />
      )}
      {verdict === 'undecided' && (
        <>
          <circle cx="12" cy="12" r="9.5" className="mark__ring" />
          <path d="M12 2.5a9.5 9.5 0 0 1 0 19Z" className="mark__fill" />
        </>
      )}
      {verdict === 'unknown' && <circle cx="12" cy="12" r="9.5" className="mark__ring mark__ring--open" />}
    </svg>
  );
}
