/** The two kinds of work: a module that is new, and one that is there already and is checked. */
export const setUpKinds = ['new-module', 'check'] as const;
export type SetUpKind = (typeof setUpKinds)[number];

/** Every step there is, in the order of the trade. */
export const setUpStepIds = [
  'sweep-as-found',
  'pilot-as-found',
  'control-low',
  'manual',
  'exchange',
  'input-level',
  'max-gain',
  'back-off',
  'range-test',
  'ambient',
  'rebalance',
  'automatic',
  'settle',
  'pilot',
  'sweep-as-left',
] as const;
export type SetUpStepId = (typeof setUpStepIds)[number];

/** How a step can be known to be done without anybody saying so. */
export type StepProof =
  /** Nothing that a meter reads can show it. */
  | 'hand'
  /** A sweep of this visit. */
  | 'sweep'
  /** The level fell under the hand and falls no further. */
  | 'low-end'
  /** It rose under the hand and rises no further. */
  | 'high-end'
  /** It lies on its target for two seconds. */
  | 'on-target'
  /** The range test ran through, and came back. */
  | 'range'
  /** It stands still for long enough. */
  | 'steady';

/** Where the meter listens during a step, and at which of the set-up's two frequencies. */
export type StepReading = Readonly<{ at: 'input' | 'output'; frequency: 'top' | 'pilot' }>;

/** A value that is kept with a step that is done. */
export type StepValue = Readonly<{ name: string; kind: 'number' | 'text'; required: boolean }>;

export type SetUpStep = Readonly<{
  id: SetUpStepId;
  kinds: readonly SetUpKind[];
  title: string;
  toDo: string;
  toWatch: string;
  reading: StepReading | null;
  proof: StepProof;
  /** What `record` keeps of it. A required one can't be left out when the step is done. */
  values: readonly StepValue[];
  /** Earlier steps whose answer this one is built on: doing one of them again opens this one again. */
  restsOn: readonly SetUpStepId[];
}>;

const both = setUpKinds;
const needs = (name: string): StepValue => ({ name, kind: 'number', required: true });
const may = (name: string, kind: StepValue['kind'] = 'number'): StepValue => ({
  name,
  kind,
  required: false,
});
const output = (frequency: StepReading['frequency']): StepReading => ({ at: 'output', frequency });

/** Common practice, no published source; the words are this program's own. The operator's procedure rules. */
export const setUpSteps: readonly SetUpStep[] = [
  {
    id: 'sweep-as-found',
    kinds: both,
    title: 'Sweep as found',
    toDo: 'Put the probe on the output test point and read every channel before anything is touched.',
    toWatch: 'The whole band comes in, and the headline says how the station was found.',
    reading: null,
    proof: 'sweep',
    values: [{ name: 'sweepId', kind: 'text', required: true }],
    restsOn: [],
  },
  {
    id: 'pilot-as-found',
    kinds: ['check'],
    title: 'Pilot as found',
    toDo: 'Leave the control in automatic and read the pilot at the output.',
    toWatch: 'The pilot stands still. One that wanders, or is gone, is the finding.',
    reading: output('pilot'),
    proof: 'steady',
    values: [needs('levelDbmv'), may('withinDb'), may('overS')],
    restsOn: [],
  },
  {
    id: 'control-low',
    kinds: ['new-module'],
    title: 'Control to its low end',
    toDo: "Turn the module's control to the end that gives the least output, so that nothing behind is overdriven.",
    toWatch:
      'The level falls as you turn. In automatic the loop works against your hand and brings it slowly back: go on until turning lowers it no more.',
    reading: output('top'),
    proof: 'low-end',
    values: [may('lowDbmv')],
    restsOn: [],
  },
  {
    id: 'manual',
    kinds: both,
    title: 'To manual',
    toDo: 'Switch the gain control to manual.',
    toWatch: 'The level may step once and then stays where the hand puts it.',
    reading: output('top'),
    proof: 'hand',
    values: [may('levelDbmv')],
    restsOn: [],
  },
  {
    id: 'exchange',
    kinds: ['new-module'],
    title: 'Exchange module and pad',
    toDo: "Pull the old module and its pad, seat the new ones, the new module's control at its low end and in manual.",
    toWatch: 'The level comes back, low. Nothing comes back: not seated.',
    reading: output('top'),
    proof: 'hand',
    values: [may('moduleOut', 'text'), may('moduleIn', 'text'), may('padDb')],
    restsOn: [],
  },
  {
    id: 'input-level',
    kinds: both,
    title: 'Input level to design',
    toDo: 'Move the probe to the input and fit the input pad that brings the first stage to its design level.',
    toWatch:
      'The level at the input test point against what the first stage may get behind its pad and equalizer.',
    reading: { at: 'input', frequency: 'top' },
    proof: 'on-target',
    values: [needs('levelDbmv')],
    restsOn: ['exchange'],
  },
  {
    id: 'max-gain',
    kinds: both,
    title: 'Find the maximum gain',
    toDo: 'Probe back on the output. In manual, turn the control up until it gives no more.',
    toWatch: 'The level rises, then rises no further: that is the maximum.',
    reading: output('top'),
    proof: 'high-end',
    values: [needs('maxDbmv')],
    restsOn: ['manual', 'exchange', 'input-level'],
  },
  {
    id: 'back-off',
    kinds: both,
    title: 'Back off by the reserve',
    toDo: 'Turn down by the reserve of this bandwidth.',
    toWatch: 'The level lies on the target: the maximum less the reserve.',
    reading: output('top'),
    proof: 'on-target',
    values: [needs('setDbmv')],
    restsOn: ['max-gain'],
  },
  {
    id: 'range-test',
    kinds: both,
    title: 'Range test, when wanted',
    toDo: 'Turn up to the end, down to the end, and back to the set level.',
    toWatch: 'How far it goes up and down from the set level, and that it comes back.',
    reading: output('top'),
    proof: 'range',
    values: [needs('upDb'), needs('downDb'), needs('returnedDbmv')],
    restsOn: ['back-off'],
  },
  {
    id: 'ambient',
    kinds: both,
    title: "Compensate for today's temperature",
    toDo: 'Move the set level by the compensation for the temperature of the air.',
    toWatch: 'The level lies on the target: the maximum less the reserve, moved for today.',
    reading: output('top'),
    proof: 'on-target',
    values: [needs('ambientC'), needs('setDbmv')],
    restsOn: ['max-gain'],
  },
  {
    id: 'rebalance',
    kinds: both,
    title: 'Rebalance to design',
    toDo: 'Sweep, fit the pads and equalizers that are proposed, and sweep again. Leave the control where it is.',
    toWatch: 'The output lies on its design line while the control keeps its reserve.',
    reading: null,
    proof: 'sweep',
    values: [may('sweepId', 'text')],
    restsOn: ['back-off', 'ambient'],
  },
  {
    id: 'automatic',
    kinds: both,
    title: 'To automatic',
    toDo: 'Switch the gain control to automatic.',
    toWatch: 'The loop takes over; the level moves a little and comes back.',
    reading: output('pilot'),
    proof: 'hand',
    values: [may('levelDbmv')],
    restsOn: ['back-off', 'ambient', 'rebalance'],
  },
  {
    id: 'settle',
    kinds: both,
    title: 'Wait while it settles',
    toDo: 'Hands off.',
    toWatch:
      'The pilot stands still. Hunting up and down, or a slow way to one end, means that the loop does not hold.',
    reading: output('pilot'),
    proof: 'steady',
    values: [needs('levelDbmv'), may('withinDb'), may('overS')],
    restsOn: ['automatic'],
  },
  {
    id: 'pilot',
    kinds: both,
    title: 'Confirm pilot and level',
    toDo: 'Check that the module listens to the pilot of the plan, and set its level to design.',
    toWatch: 'The pilot lies on its design level.',
    reading: output('pilot'),
    proof: 'on-target',
    values: [needs('pilotMhz'), needs('levelDbmv')],
    restsOn: ['settle'],
  },
  {
    id: 'sweep-as-left',
    kinds: both,
    title: 'Sweep as left',
    toDo: 'Read every channel once more at the output.',
    toWatch: 'Level, tilt and flatness are in order, and the record is whole.',
    reading: null,
    proof: 'sweep',
    values: [{ name: 'sweepId', kind: 'text', required: true }],
    restsOn: ['rebalance', 'automatic', 'pilot'],
  },
];

/**
 * The steps of one kind of work.
 * @returns  in the order in which they are done
 * @source   common practice, no published source
 */
export const stepsOf = (kind: SetUpKind): readonly SetUpStep[] =>
  setUpSteps.filter((step) => step.kinds.includes(kind));

/** What is read before a hand goes near the housing. Not a complete list: the operator's procedure is. */
export const setUpCautions: readonly string[] = [
  'Line power of 60 or 90 V AC is on seizure screws, test points and module pins.',
  'Work aloft, near power conductors and in traffic: secure yourself and the place first.',
  'An optical node holds laser light that nobody sees: never look into a connector.',
  'An open housing radiates into aeronautical bands: close it as soon as you can.',
  "The operator's own procedure rules, with the local electrical code and licensed practice. This sheet advises on levels only.",
];
