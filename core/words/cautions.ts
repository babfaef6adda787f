/** What is said once a visit, on the screen and in the report. The first words of each stand out. */
export const CAUTIONS: readonly Readonly<{ lead: string; text: string }>[] = [
  { lead: 'Line power.', text: '60 or 90 V AC stands on seizure screws, test points and module pins.' },
  {
    lead: 'Aloft and on the road.',
    text: 'Height, traffic and power conductors are nearer than they look.',
  },
  {
    lead: 'Optical nodes.',
    text: 'Laser light there is invisible. Never look into a fibre or a port.',
  },
  {
    lead: 'Open housings',
    text: 'leak RF into aeronautical bands. Close them as soon as you can.',
  },
];

export const CAUTIONS_DEFER =
  'The workbench advises on levels only. Your operator\u2019s procedures, the local electrical code and licensed practice rule.';
