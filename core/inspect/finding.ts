/** What a sweep shows that a straight line does not; the keys are those of the contract's JSON. */
export type RippleFinding = Readonly<{
  kind: 'ripple';
  periodMhz: number;
  peakToPeakDb: number;
  distanceM: number;
  distanceFt: number;
}>;
export type NotchFinding = Readonly<{ kind: 'notch'; centerMhz: number; depthDb: number; widthMhz: number }>;
export type RolloffFinding = Readonly<{
  kind: 'rolloff';
  edge: 'low' | 'high';
  fromMhz: number;
  depthDb: number;
}>;
export type MissingFinding = Readonly<{ kind: 'missing'; frequencyMhz: number }>;
export type StepFinding = Readonly<{ kind: 'step'; atMhz: number; stepDb: number }>;
export type Finding = RippleFinding | NotchFinding | RolloffFinding | MissingFinding | StepFinding;
