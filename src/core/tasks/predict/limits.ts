/** The limits of a microphone in full: over frequency, over its face, in its surroundings. */
import { createEngine, type Engine, settle, shapeEntry } from "../../microphone/engine.ts";
import { heatSystem } from "../../microphone/heatSystem.ts";
import { type Loudest, loudestAt } from "../../microphone/loudest.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { restingBias } from "../../microphone/restingBias.ts";
import { ventCorner } from "../../microphone/ventCorner.ts";
import { stressTable } from "../../parts/diaphragm/stress.ts";
import { answer, type Outcome } from "../../problem.ts";
import { briefDefaults, readBrief } from "../../project/brief.ts";
import { describe } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";
import { thirdOctaves } from "../../quantity/thirdOctaves.ts";
import { type PrecautionLimits, precautionLimits } from "./precautionLimits.ts";
import { predictMicrophone } from "./predict.ts";
import type { Prediction } from "./prediction.ts";
import { type Surroundings, surroundingsOf } from "./surroundings.ts";

export interface Limits {
  /** Everything that a prediction says. */
  readonly noise: Prediction["noise"];
  readonly loudest: Prediction["loudest"];
  readonly strength: Prediction["strength"];
  /** Third octaves: floor (noise in the band over |S|), ceilings for 1 % and for the distortion asked for; dB re 20 uPa. */
  readonly range: {
    readonly frequency: readonly number[];
    readonly floor: readonly (number | null)[];
    readonly onePercent: readonly (number | null)[];
    readonly ceiling: readonly (number | null)[];
    readonly first: readonly Loudest["first"][];
    /** Ceiling less A-weighted noise at the brief's frequency [dB]. */
    readonly dynamic: number | null;
    /** What the brief asks for, as a box; null where it says nothing. */
    readonly asked: {
      readonly from: number | null;
      readonly to: number | null;
      readonly noise: number | null;
      readonly loudest: number | null;
    };
  };
  readonly recovery: Recovery | null;
  /** Larger principal bending stress per pressure on the front face over a quarter, rows along from the middle to the end [Pa/Pa]. */
  readonly stress: {
    readonly across: number;
    readonly along: number;
    readonly count: number;
    readonly values: readonly number[];
  };
  readonly surroundings: Surroundings | null;
  readonly precautions: readonly PrecautionLimits[];
}

/** After a tone 20 dB above the loudest sound stops: until the readout is back below that sound, and until all is noise [s]. */
export interface Recovery {
  readonly above: number;
  readonly toLoudest: number;
  readonly toNoise: number | null;
}

/** How far above the loudest sound the overload lies [dB]. */
const overload = 20;

/** Problems: those of the description, and `buckled`. */
export function limits(project: Project, options: { readonly engine?: Engine } = {}): Outcome<Limits> {
  const described = describe(project);
  if (!described.ok) return described;
  const engine = options.engine ?? createEngine();
  const settled = settle(engine, described.value);
  if (!settled.ok) return settled;
  const microphone = settled.value;
  const brief = readBrief(project);
  const prediction = predictMicrophone(microphone, brief, { engine, frequencies: [brief.reference] }, []);
  const { noise, loudest, strength } = prediction;
  const entry = shapeEntry(engine, microphone);
  const bias = restingBias(microphone);
  const bands = thirdOctaves(20, 20000);
  const asked = brief.loudest?.distortion ?? briefDefaults.distortion;
  const at = (frequency: number, distortion: number) => loudestAt(entry, microphone, { frequency, distortion, bias });
  const ceilings = bands.map(({ mid }) => at(mid, asked));
  const corner = ventCorner(heatSystem(entry, microphone).even.system);
  return answer(
    {
      noise,
      loudest,
      strength,
      range: {
        frequency: bands.map(({ mid }) => mid),
        floor: noise.withoutLight ? bands.map(() => null) : noise.thirdOctaves.map(({ level }) => level),
        onePercent: bands.map(({ mid }) => at(mid, 0.01).level),
        ceiling: ceilings.map(({ level }) => level),
        first: ceilings.map(({ first }) => first),
        dynamic: loudest.level === null || noise.levelA === null ? null : loudest.level - noise.levelA,
        asked: {
          from: brief.band?.from ?? null,
          to: brief.band?.to ?? null,
          noise: brief.noise?.atMostDb ?? null,
          loudest: brief.loudest?.atLeastDb ?? null,
        },
      },
      recovery: recoveryOf(prediction),
      stress: stressMap(microphone),
      surroundings: surroundingsOf(project, microphone, brief),
      precautions: precautionLimits(microphone, brief, { strength, ventCorner: corner }),
    },
    described.remarks,
  );
}

/**
 * What is left falls as the slowest of the poles that carry a share: A sum |share| exp(-rate t). An upper estimate, because the
 * parts are added by size.
 */
function recoveryOf({ loudest, noise, resonances, decays }: Prediction): Recovery | null {
  if (loudest.level === null) return null;
  const parts = [
    ...resonances.map(({ frequency, dampingRatio, share }) => ({
      rate: 2 * Math.PI * frequency * dampingRatio,
      share: Math.abs(share),
    })),
    ...decays.map(({ rate, share }) => ({ rate, share: Math.abs(share) })),
  ].filter(({ share, rate }) => share > 1e-9 && rate > 0);
  if (parts.length === 0) return null;
  const left = (time: number) => parts.reduce((sum, { rate, share }) => sum + share * Math.exp(-rate * time), 0);
  const until = (decibel: number) => {
    const wanted = 10 ** (-decibel / 20);
    let high = 1e-6;
    while (left(high) > wanted && high < 1e6) high *= 2;
    let low = 0;
    for (let step = 0; step < 60; step++) {
      const middle = (low + high) / 2;
      if (left(middle) > wanted) low = middle;
      else high = middle;
    }
    return high;
  };
  return {
    above: overload,
    toLoudest: until(overload),
    toNoise: noise.levelA === null ? null : until(overload + loudest.level - noise.levelA),
  };
}

const mapCount = 25;

function stressMap({ diaphragm }: Microphone): Limits["stress"] {
  const at = Array.from({ length: mapCount }, (_, i) => i / (mapCount - 1));
  const field = stressTable(diaphragm, { at, functions: 16 });
  const values = at.flatMap((_, j) =>
    at.map((_, i) => {
      const { x, y } = field(i, j).front;
      return Math.abs(x) > Math.abs(y) ? x : y;
    }),
  );
  return { across: diaphragm.across, along: diaphragm.along, count: mapCount, values };
}
