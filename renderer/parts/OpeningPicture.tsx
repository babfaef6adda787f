/** Not data: the shape of the job. A sagging line, the band where it belongs, and the dotted way there. */
export const OpeningPicture = () => (
  <svg
    className="opening"
    viewBox="20 64 600 360"
    role="img"
    aria-label="A sweep that sags below its design band, and the dotted line that the right parts would give"
  >
    <path className="opening__band" d="M40 262 600 92v76L40 338Z" />
    <path className="opening__edge" d="M40 262 600 92M40 338 600 168" />
    <path className="opening__design" d="M40 300 600 130" />
    <path
      className="opening__found"
      d="M40 298c34-6 48-18 82-22s42-22 78-20 44-28 84-26 50-14 88-10 46-14 84-8 54-6 84 2 40-10 60-4"
    />
    <path
      className="opening__predicted"
      d="M40 302c34-16 48-16 82-34s42-14 78-32 44-18 84-28 50-20 88-24 46-22 84-28 54-18 84-18 40-16 60-10"
    />
    <g className="opening__blocks">
      <path d="M40 382H600" />
      <rect x="96" y="354" width="86" height="56" rx="6" className="opening__change" />
      <rect x="214" y="354" width="86" height="56" rx="6" className="opening__change" />
      <path d="M336 350 392 382 336 414Z" />
      <rect x="428" y="354" width="86" height="56" rx="6" />
    </g>
    <text x="139" y="391" textAnchor="middle" className="opening__number">
      9
    </text>
    <text x="257" y="391" textAnchor="middle" className="opening__number">
      14
    </text>
    <text x="471" y="391" textAnchor="middle" className="opening__number opening__number--still">
      3
    </text>
  </svg>
);
