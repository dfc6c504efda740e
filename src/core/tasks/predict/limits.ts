/** The limits of a microphone in full: over frequency, over its face, in its surroundings. */
import { createEngine, type Engine, settle, shapeEntry } from "../../microphone/engine.ts";
import { type Loudest, loudestAt } from "../../microphone/loudest/loudest.ts";
import { type SteadyTone, steadyTones } from "../../microphone/loudest/steadyTone.ts";
import { centerAtRest, type LoudestEntry, partsOf } from "../../microphone/loudest/tone.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { heatSystem } from "../../microphone/noise/heatSystem.ts";
import { ventCorner } from "../../microphone/poles/ventCorner.ts";
import { restingBias } from "../../microphone/rest/restingBias.ts";
import { stressTable } from "../../parts/diaphragm/stress.ts";
import { answer, type Outcome } from "../../problem.ts";
import { briefDefaults, readBrief } from "../../project/brief.ts";
import { describe } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";
import { precautionsOf } from "../../project/precautions.ts";
import { thirdOctaves } from "../../quantity/thirdOctaves.ts";
import { type PrecautionLimits, precautionLimits } from "./precautionLimits.ts";
import { predictMicrophone } from "./predict.ts";
import type { Prediction } from "./prediction.ts";
import { type Recovery, recoveryOf } from "./recovery.ts";
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
    /** The ceiling once more by the balance of more multiples (steadyTone.ts) where two causes come close; null: not asked, or none. */
    readonly balanced: readonly (number | null)[];
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
  /** At the brief's frequency; null: no linear output. */
  readonly mixing: Mixing | null;
  readonly recovery: Recovery | null;
  /** Pressure from which the diaphragm is bent by half its thickness and bears more than its straight line says [Pa]. */
  readonly straightUpTo: number;
  /** Pressure across the diaphragm that lays its center on the wall, the stretch counted [Pa]; null: no wall. */
  readonly touches: number | null;
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

/**
 * The loudest sound with all causes at once as the verdict has it (loudest.ts), and by the balance of more multiples of the tone
 * (steadyTone.ts): a second opinion.
 */
export interface Mixing {
  /** Both levels with contact left aside, dB re 20 uPa; null: not found. */
  readonly counted: number | null;
  readonly balanced: number | null;
  /** Why the balance ended; multiples of the tone it has. */
  readonly stopped: SteadyTone["stopped"];
  readonly multiples: number;
  /** Distance of the two causes that come first, each alone [dB]; null: fewer than two. */
  readonly apart: number | null;
}

/** Causes closer than this are balanced over frequency, too [dB]. */
const closeBy = 6;

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
  const ceilings = bands.map(({ mid }) => ceilingAt(entry, microphone, { frequency: mid, asked, bias }));
  const corner = ventCorner(heatSystem(entry, microphone).even.system);
  const surroundings = surroundingsOf(project, microphone, brief, prediction.band.to);
  return answer(
    {
      noise,
      loudest,
      strength,
      range: {
        frequency: bands.map(({ mid }) => mid),
        floor: noise.withoutLight ? bands.map(() => null) : noise.thirdOctaves.map(({ level }) => level),
        onePercent: ceilings.map(({ onePercent }) => onePercent),
        ceiling: ceilings.map(({ level }) => level),
        first: ceilings.map(({ first }) => first),
        balanced: ceilings.map(({ balanced }) => balanced),
        dynamic: loudest.level === null || noise.levelA === null ? null : loudest.level - noise.levelA,
        asked: {
          from: brief.band?.from ?? null,
          to: brief.band?.to ?? null,
          noise: brief.noise?.atMostDb ?? null,
          loudest: brief.loudest?.atLeastDb ?? null,
        },
      },
      mixing: mixingOf(entry, microphone, loudest, bias),
      recovery: recoveryOf(entry, microphone, { ...prediction, bias, asked: brief.loudest?.atLeastDb ?? null }),
      straightUpTo: microphone.diaphragm.thickness / 2 / Math.abs(prediction.deflection.center),
      touches: touchingPressure(entry, microphone),
      stress: stressMap(microphone),
      surroundings,
      precautions: precautionLimits(precautionsOf(project), microphone, brief, {
        strength,
        ventCorner: corner,
        surroundings,
      }),
    },
    described.remarks,
  );
}

function mixingOf(
  entry: LoudestEntry,
  microphone: Microphone,
  loudest: Loudest,
  bias: readonly (number | null)[],
): Mixing | null {
  const { frequency, distortion, summed } = loudest;
  if (loudest.level === null || loudest.moved === 0) return null;
  const [tone] = steadyTones(entry, microphone, { frequency, distortions: [distortion], bias, near: [summed] }) ?? [];
  if (!tone) return null;
  const { level, stopped, multiples } = tone;
  return { counted: summed, balanced: level, stopped, multiples, apart: apartOf(loudest) };
}

/** How far the two causes that come first lie from each other [dB]. */
function apartOf({ byCause }: Loudest): number | null {
  const [first, second] = Object.values(byCause)
    .filter((level) => level !== null)
    .sort((a, b) => a - b);
  return first === undefined || second === undefined ? null : second - first;
}

function ceilingAt(
  entry: LoudestEntry,
  microphone: Microphone,
  { frequency, asked, bias }: { frequency: number; asked: number; bias: readonly (number | null)[] },
) {
  const by = (distortion: number) => loudestAt(entry, microphone, { frequency, distortion, bias });
  const [here, strict] = [by(asked), by(0.01)];
  const apart = apartOf(here);
  const [tone] =
    (apart !== null && apart < closeBy
      ? steadyTones(entry, microphone, { frequency, distortions: [asked], bias, near: [here.summed] })
      : null) ?? [];
  const balanced = tone?.level == null ? null : Math.min(tone.level, here.contact ?? tone.level);
  return { level: here.level, onePercent: strict.level, first: here.first, balanced };
}

/** x that brings the center to the wall, and the pressure that holds it there: p = x + s_2 x^2 + s_3 x^3. */
function touchingPressure(entry: LoudestEntry, microphone: Microphone): number | null {
  const { center, room } = centerAtRest(entry, microphone);
  if (room === null) return null;
  const x = room / center;
  const { square, cube } = partsOf(entry, microphone).stretch.stiffening;
  return x + (square + cube * x) * x * x;
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
