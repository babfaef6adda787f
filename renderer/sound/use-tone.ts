import { useEffect, useRef } from 'react';
import type { Ticking } from '../parts/LiveText.tsx';
import { pitchHz } from './pitch.ts';
import { createTone } from './tone.ts';

/** Sound beside the number while it is wanted: its pitch follows the distance, and inside the tolerance it is silent. */
export function useTone(
  source: Ticking<Readonly<{ offDb: number | null }>>,
  toleranceDb: number,
  isOn: boolean,
): () => void {
  const tone = useRef(createTone(() => new AudioContext()));
  useEffect(() => {
    const voice = tone.current;
    if (!isOn) return;
    const off = source.onTick(() => voice.play(pitchHz(source.read().offDb, toleranceDb)));
    return () => {
      off();
      voice.play(null);
    };
  }, [source, toleranceDb, isOn]);
  useEffect(() => () => tone.current.close(), []);
  return tone.current.unlock;
}
