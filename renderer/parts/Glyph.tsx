const paths = {
  arrow: 'M3 12h17M14 5.5 20.5 12 14 18.5',
  back: 'M21 12H4M10 5.5 3.5 12 10 18.5',
  pad: 'M3 12h18',
  equalizer: 'M3 19C9 18 15 13 21 5',
  'cable-simulator': 'M3 5C9 6 15 11 21 19',
  sun: 'M12 7.5a4.5 4.5 0 1 0 0 9 4.5 4.5 0 0 0 0-9ZM12 1.5v3M12 19.5v3M1.5 12h3M19.5 12h3M4.6 4.6l2.1 2.1M17.3 17.3l2.1 2.1M4.6 19.4l2.1-2.1M17.3 6.7l2.1-2.1',
  moon: 'M19.5 14.5A8.5 8.5 0 1 1 9.5 4.5a6.8 6.8 0 0 0 10 10Z',
  close: 'M5 5 19 19M19 5 5 19',
  chart: 'M3 20C9 19 12 12 21 5M3 3v18h18',
  table: 'M3 5h18M3 12h18M3 19h18M10 5v14',
  save: 'M12 3v12M6.5 10 12 15.5 17.5 10M4 20.5h16',
  open: 'M12 16V4M6.5 9 12 3.5 17.5 9M4 20.5h16',
  settings: 'M3 7h8M17 7h4M3 17h4M13 17h8M14 4a3 3 0 1 0 .01 0ZM10 14a3 3 0 1 0 .01 0Z',
  truck:
    'M1.5 5.5h12v11h-12ZM13.5 9.5h4.5l4 4v3h-8.5M5.5 16.5a2.2 2.2 0 1 0 .01 0ZM18 16.5a2.2 2.2 0 1 0 .01 0Z',
  less: 'M5 12h14',
  more: 'M5 12h14M12 5v14',
  search: 'M10.5 3.5a7 7 0 1 0 .01 0ZM15.7 15.7 21 21',
  help: 'M8 8.5a4 4 0 1 1 6 3.6c-1.4.8-2 1.6-2 3.2M12 19.5v.5',
  menu: 'M3.5 6.5h17M3.5 12h17M3.5 17.5h17',
  undo: 'M8.5 4.5 4 9l4.5 4.5M4.5 9H14a5.5 5.5 0 0 1 0 11H9',
  redo: 'M15.5 4.5 20 9l-4.5 4.5M19.5 9H10a5.5 5.5 0 0 0 0 11h5',
  'to-low-end': 'M4 5v14M20.5 12H8.5M13.5 6.5 8 12 13.5 17.5',
  'to-high-end': 'M20 5v14M3.5 12H15.5M10.5 6.5 16 12 10.5 17.5',
  probe: 'M12 2v13M6.5 10 12 15.5 17.5 10',
} as const;

export type GlyphName = keyof typeof paths;
export type GlyphProps = Readonly<{ name: GlyphName; className?: string }>;

/** A small drawing in the ink of the text beside it. */
export const Glyph = ({ name, className = '' }: GlyphProps) => (
  <svg className={`glyph ${className}`} viewBox="0 0 24 24" aria-hidden="true">
    <path d={paths[name]} />
  </svg>
);
