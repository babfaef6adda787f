export type Tone = Readonly<{
  /** Browsers let no sound out before a press: called by the start button. */
  unlock(): void;
  /** Null is silence. */
  play(pitchHz: number | null): void;
  close(): void;
}>;

/** Loud enough beside a road, not so loud that a hand jumps. */
const LOUDNESS = 0.09;
/** A pitch glides this quickly, so that a reading makes no click. */
const GLIDE_S = 0.02;

/** One soft tone. Nothing is made before it is unlocked, and a machine without sound only stays silent. */
export function createTone(makeContext: () => AudioContext): Tone {
  let context: AudioContext | null = null;
  let voice: Readonly<{ oscillator: OscillatorNode; gain: GainNode }> | null = null;
  return {
    unlock: () => {
      try {
        context ??= makeContext();
        void context.resume();
        if (voice !== null) return;
        const oscillator = context.createOscillator();
        const gain = context.createGain();
        oscillator.type = 'triangle';
        gain.gain.value = 0;
        oscillator.connect(gain).connect(context.destination);
        oscillator.start();
        voice = { oscillator, gain };
      } catch {
        // No sound device: the number and the words say the same.
      }
    },
    play: (pitchHz) => {
      if (context === null || voice === null) return;
      const at = context.currentTime;
      voice.gain.gain.setTargetAtTime(pitchHz === null ? 0 : LOUDNESS, at, GLIDE_S);
      if (pitchHz !== null) voice.oscillator.frequency.setTargetAtTime(pitchHz, at, GLIDE_S);
    },
    close: () => {
      void context?.close();
      context = null;
      voice = null;
    },
  };
}
