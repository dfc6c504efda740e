/** Plays samples softly: one sound at a time, under the limit that core gives, by a level that the user sets. */
import { createSignal } from "solid-js";

export interface Player {
  /** What is being played. */
  readonly playing: () => string | null;
  /** `gain`: the limit's factor; `level` [dB], at most 0. */
  readonly play: (what: string, sound: Float64Array, given: { sampling: number; gain: number; level: number }) => void;
  readonly stop: () => void;
  readonly end: () => void;
}

/** null: this browser plays no sound. */
export function createPlayer(): Player | null {
  if (typeof AudioContext === "undefined") return null;
  let context: AudioContext | null = null;
  let source: AudioBufferSourceNode | null = null;
  const [playing, setPlaying] = createSignal<string | null>(null);
  function stop(): void {
    if (source !== null) source.onended = null;
    source?.stop();
    source = null;
    setPlaying(null);
  }
  return {
    playing,
    play: (what, sound, { sampling, gain, level }) => {
      stop();
      // A browser lets a page sound only after a hand has asked for it.
      context ??= new AudioContext();
      void context.resume();
      const buffer = context.createBuffer(1, sound.length, sampling);
      buffer.copyToChannel(Float32Array.from(sound), 0);
      const soft = context.createGain();
      soft.gain.value = gain * 10 ** (Math.min(0, level) / 20);
      source = context.createBufferSource();
      source.buffer = buffer;
      source.connect(soft).connect(context.destination);
      source.onended = () => setPlaying(null);
      source.start();
      setPlaying(what);
    },
    stop,
    end: () => {
      stop();
      void context?.close();
    },
  };
}
