import type { DistortionCause, Loudest } from "../../microphone/loudest/loudest.ts";
import type { Straightness } from "../../microphone/loudest/straightness.ts";
import type { Noise, NoiseSource } from "../../microphone/noise/noise.ts";
import type { Energies } from "../../microphone/response/energies.ts";
import type { Influence } from "../../microphone/response/influence.ts";
import type { Losses } from "../../microphone/response/losses.ts";
import type { BiasAtRest } from "../../microphone/rest/biasAtRest.ts";
import type { StrengthAnswer } from "../../microphone/strength.ts";
import type { Parity } from "../../parts/diaphragm/modes.ts";
import type { FilmRegime } from "../../parts/film/regime.ts";
import type { Problem } from "../../problem.ts";

import type { LightAnswer } from "./light.ts";

export type {
  DistortionCause,
  Energies,
  FilmRegime,
  Influence,
  Losses,
  Loudest,
  Noise,
  NoiseSource,
  Parity,
  StrengthAnswer,
};

/** What a level depends on most at a frequency [Hz]. */
export interface Limit {
  readonly frequency: number;
  readonly part: Influence["part"];
  readonly influences: readonly Influence[];
}

/** A text behind a number: the card that a page opens and `predict --json` prints. */
export interface Card {
  readonly title: string;
  /** The formula as printed in docs/theory. */
  readonly formula: string;
  /** What went in, as text with units. */
  readonly inputs: readonly { readonly name: string; readonly value: string }[];
  readonly source: string;
  /**
   * Of each of its numbers ("resonance.frequency") the values that it follows most: one percent more of the value makes the
   * number larger by `exponent` percent. Only where `sensitivities` has been asked for.
   */
  readonly mostSensitiveTo?: readonly {
    readonly number: string;
    readonly to: readonly { readonly path: string; readonly label: string; readonly exponent: number }[];
  }[];
}

/** One line of the brief, held against the prediction. SI; `margin` > 0 is met; null: not computed. */
export interface Verdict {
  /** "brief.band.to" */
  readonly requirement: string;
  readonly asked: number;
  readonly got: number | null;
  /** The band goes on past what was computed: it reaches `got` or farther. Absent: `got` is the value itself. */
  readonly orFarther?: true;
  readonly met: boolean | null;
  readonly margin: number | null;
  readonly must: boolean;
}

/** Everything that `predict` answers, SI throughout. */
export interface Prediction {
  /** Complex response S(f) [rad/Pa] at the frequencies asked for, or at a default grid [Hz]. */
  readonly response: {
    readonly frequency: readonly number[];
    readonly re: readonly number[];
    readonly im: readonly number[];
    /** -d arg S / d omega [s]; null where a frequency lies outside the computed curve. */
    readonly groupDelay: readonly number[] | null;
  };
  /**
   * The same in other fields than an even pressure, at response.frequency [rad/Pa]: plane sound on the axis, complex, and sound
   * from all directions alike, a magnitude. `approximate`: a cylinder's factors are estimates. Null without a body.
   */
  readonly field: {
    readonly free: { readonly re: readonly number[]; readonly im: readonly number[] };
    readonly random: readonly number[];
    readonly approximate: boolean;
  } | null;
  /**
   * Sound level that reads as an acceleration of the frame of 1 m/s2 along z, dB re 20 uPa: at response.frequency (null where the
   * light reads neither), and the highest in the brief's band (at its reference frequency where it asks for no band).
   */
  readonly vibration: {
    readonly level: readonly (number | null)[];
    readonly worst: { readonly frequency: number; readonly level: number } | null;
  };
  readonly sensitivity: {
    /** The plate alone, uniform unit pressure, no loss [rad/Pa]; signed. */
    readonly static: number;
    /** Frequency of the brief's sensitivity (1 kHz if absent) [Hz] and |S| there [rad/Pa]. */
    readonly frequency: number;
    readonly magnitude: number;
    /** Static sensitivity [rad/Pa] against guide position [m], for one guide of the present width. */
    readonly scan: { readonly at: readonly number[]; readonly value: readonly number[] };
    /** Position with the largest |static| [m], its value [rad/Pa]; positions without static sensitivity [m]. */
    readonly best: { readonly at: number; readonly value: number };
    readonly nulls: readonly number[];
  };
  /** Of the middle of the diaphragm under a uniform static pressure, the plate alone, as long as it is small [m/Pa]; inward is positive. */
  readonly deflection: { readonly center: number };
  /** In vacuum, without loss, all four classes, up to 6 times the lowest, in order of frequency [Hz]. */
  readonly modes: readonly { readonly frequency: number; readonly parity: Parity }[];
  /**
   * Oscillating poles omega_p: |omega_p| / 2 pi [Hz], Im omega_p / |omega_p| [-], in order of frequency, and the share of each
   * pair in the static output [-]; modes that uniform sound does not excite have a share of 0.
   */
  readonly resonances: readonly { readonly frequency: number; readonly dampingRatio: number; readonly share: number }[];
  /**
   * Slow real poles, slowest first: rate [1/s], share in the static output [-], and the rate of the other pole of one overdamped
   * resonance with that motion [1/s]; null where the share is below 5 % or no mass moves with it.
   */
  readonly decays: readonly { readonly rate: number; readonly share: number; readonly partner: number | null }[];
  /**
   * The slowest pole, or pair of real poles, among those with a large share: what one calls the resonance. `dampingRatio` of two real poles is
   * (r1 + r2) / (2 sqrt(r1 r2)) > 1; null where nothing oscillates and only one creeps.
   */
  readonly resonance: {
    readonly frequency: number | null;
    readonly dampingRatio: number | null;
    readonly overdamped: boolean;
  };
  /** Where the level stays within +-`within` dB of the level at `reference` [Hz]; null: no lower or no upper edge found. */
  /**
   * In time, from poles and residues; null where there is no resonance. Times [s]; ring-down of the phase after a tone at the
   * resonance stops, 1 at the stop; phase after a step of 1 Pa [rad].
   */
  readonly time: {
    readonly ringDown: { readonly time: readonly number[]; readonly value: readonly number[] };
    readonly step: { readonly time: readonly number[]; readonly value: readonly number[] };
  } | null;
  readonly band: {
    readonly within: number;
    readonly reference: number;
    /** Level at the reference, dB re 1 rad/Pa; null where nothing is put out there. */
    readonly level: number | null;
    readonly from: number | null;
    readonly to: number | null;
  };
  readonly film: FilmRegime | null;
  /** What explains the numbers above; null in a quick answer. */
  readonly parts: {
    /** Shares of the dissipated power by part [-], under sound; null where nothing is lost. */
    readonly losses: {
      readonly atReference: Losses | null;
      readonly atResonance: Losses | null;
      /** [Hz], in equal ratios over the computed range. */
      readonly frequency: readonly number[];
      readonly shares: readonly (Losses | null)[];
    };
    /** Shares of the energy by part [-] in the motion of each resonance that is heard. */
    readonly resonances: readonly {
      readonly frequency: number;
      readonly dampingRatio: number;
      readonly energy: Energies;
    }[];
    /**
     * The part that a level re the reference depends on most: at the lower end of the band, at the resonance, at the upper end; null
     * where there is no such frequency. `influences`: all parts, change of that level for a part 10 % larger [dB].
     */
    readonly limits: {
      readonly low: Limit | null;
      readonly resonance: Limit | null;
      readonly top: Limit | null;
    };
    /** Below it vent and leak let the pressure behind follow [Hz]; null without either, or without a volume. */
    readonly corner: number | null;
    /**
     * How far the response is from one resonance of the frequency and damping ratio given: largest difference in level, from the
     * reference up to `upTo` [Hz], dB; null without a resonance.
     */
    readonly secondOrder: { readonly decibels: number; readonly upTo: number } | null;
  } | null;
  /**
   * How straight the phase follows the pressure, about the static state, slow against the resonance; null in a quick answer.
   * Pressures are amplitudes across the diaphragm [Pa]; levels those of the sound at `frequency` that makes them, dB re 20 uPa.
   */
  readonly straightness:
    | (Straightness & {
        readonly frequency: number;
        readonly leavesLineLevel: number | null;
        readonly distortedLevel: readonly (number | null)[];
      })
    | null;
  /** The diaphragm under a static pressure difference or bowed by the stress of its layers; null: flat. */
  readonly rest: {
    /** In front less behind [Pa]. */
    readonly difference: number;
    /** Moment of the layers' stress about the neutral plane, where it bows the diaphragm [N]; null: it does not. */
    readonly moment: { readonly across: number; readonly along: number } | null;
    /** Deflection at the center and on average [m]. */
    readonly center: number;
    readonly mean: number;
    /** The film's gap as built and as it is computed with [m]; null without film. */
    readonly gap: { readonly built: number; readonly computed: number } | null;
  } | null;
  /** Phase before any sound, of each guide [rad], [rad/K]; without the birefringence. */
  readonly bias: readonly BiasAtRest[];
  /** How well the answer is resolved. */
  readonly resolution: {
    /** Plate functions a direction, film terms a direction. */
    readonly functions: number;
    readonly filmTerms: number;
    /** Largest relative change of S on refinement, max |dS| / max(|S|, 1e-3 |S static|) [-]. */
    readonly change: number;
    /** Frequencies solved for the curve, and the curve's largest relative error at those that tested it [-]. */
    readonly samples: number;
    readonly curveError: number;
    /** Whether the response was computed in a reduced basis or in the whole one. */
    readonly route: "reduced" | "whole";
  };
  /** The light at rest: modes, bias, transfer curve, drift (light.ts). */
  readonly light: LightAnswer;
  /** Noise as phase and as sound (microphone/noise/noise.ts). */
  readonly noise: Noise;
  /** Loudest sound at the brief's frequency (microphone/loudest/loudest.ts). */
  readonly loudest: Loudest;
  /** Stress and safety (microphone/strength.ts); null: the sheet's strength is not known. */
  readonly strength: StrengthAnswer | null;
  readonly verdict: readonly Verdict[];
  readonly cards: Readonly<Record<string, Card>>;
  readonly remarks: readonly Problem[];
}

/** What of a prediction a hand sees move (`watch`): the other numbers come when it rests. */
export type Watched = Pick<
  Prediction,
  | "response"
  | "sensitivity"
  | "deflection"
  | "resonances"
  | "decays"
  | "resonance"
  | "time"
  | "band"
  | "film"
  | "resolution"
  | "verdict"
>;
