/** What temperature, pressure and humidity of the surroundings do to sensitivity and band, by cause. */

import type { Air } from "../../material/air.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { notBuckled } from "../../microphone/rest/buckling.ts";
import { settled } from "../../microphone/rest/rest.ts";
import { restingBias } from "../../microphone/rest/restingBias.ts";
import { leanBand, leanResponse } from "../../microphone/span/lean.ts";
import { cos } from "../../numerics/sine.ts";
import { isBowed } from "../../parts/diaphragm/diaphragm.ts";
import { staticPlate } from "../../parts/diaphragm/statics.ts";
import { phaseAtRest } from "../../parts/guide/bias.ts";
import { outputCurve } from "../../parts/readout/operating.ts";
import { transferOf } from "../../parts/readout/transfer.ts";
import { type Brief, briefDefaults } from "../../project/brief.ts";
import { assemble, type Parts, partsOf } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";
import { materialOf } from "../../project/materialOf.ts";
import { siteDew } from "./siteDew.ts";

/**
 * Air: density, viscosity and the rest; material: index; stress: tension from frame and sheet; bias: slope of the readout; trapped:
 * the air shut in behind, which presses on the diaphragm where nothing lets it out.
 */
export type SurroundingCause = "air" | "material" | "stress" | "bias" | "trapped";

export interface Change {
  readonly cause: SurroundingCause;
  /** Of the level of |S| at the reference [dB]. */
  readonly sensitivity: number;
  /** Of the lower and the upper edge of the band, as a share [-]; null: no edge, or the cause does not move it. */
  readonly bandFrom: number | null;
  readonly bandTo: number | null;
}

export interface Surroundings {
  /** For one kelvin, one kilopascal, 10 % of relative humidity. */
  readonly perKelvin: readonly Change[];
  readonly perKilopascal: readonly Change[];
  readonly perTenPercent: readonly Change[];
  /** Drift of the bias of the first guide [rad/K]. */
  readonly biasPerKelvin: number;
  /** Dew point of the warmest and most humid air of the site [K], and its coldest temperature [K]; null: no ranges given. */
  readonly dew: { readonly point: number; readonly coldest: number } | null;
  /** Narrow passages that dirt and dew can close [m]. */
  readonly passages: readonly { readonly what: "gap" | "hole" | "vent" | "leak"; readonly size: number }[];
}

/** Steps of the differences [K], [Pa], [-]. */
const steps = { temperature: 2, pressure: 2000, humidity: 0.1 };
const tolerance = 1e-7;

/**
 * Null where the microphone cannot be described under changed air, buckles there, or puts nothing out. `upTo`: where its band ends
 * now [Hz], so that the curve reaches past it; null: no upper edge is known.
 */
export function surroundingsOf(
  project: Project,
  microphone: Microphone,
  brief: Brief,
  upTo: number | null = null,
): Surroundings | null {
  const parts = partsOf(project);
  const measure = measurer(brief, upTo);
  const base = measure(microphone);
  if (!Number.isFinite(base.level)) return null;
  const difference = (down: Microphone, up: Microphone, per: number, cause: SurroundingCause): Change => {
    const [low, high] = [measure(down), measure(up)];
    const edge = (key: "bandFrom" | "bandTo") =>
      low[key] === null || high[key] === null || base[key] === null ? null : (high[key] - low[key]) / base[key] / per;
    return {
      cause,
      sensitivity: (high.level - low.level) / per,
      bandFrom: edge("bandFrom"),
      bandTo: edge("bandTo"),
    };
  };
  const temperature = between(parts, "temperature", steps.temperature, microphone.air.temperature);
  const pressure = between(parts, "pressure", steps.pressure, microphone.air.pressure);
  const humidity = between(parts, "humidity", steps.humidity, microphone.air.humidity);
  if (!temperature || !pressure || !humidity) return null;
  const withAir = (air: Air): Microphone => ({ ...microphone, air });
  const stressed = ({ diaphragm }: Microphone): Microphone => asItStands({ ...microphone, diaphragm });
  const perIndex = indexPerKelvin(parts);
  const warmed = (step: number): Microphone => withIndex(microphone, step * (perIndex ?? 0));
  const bias = biasChange(microphone);
  const shutIn = trappedShare(microphone);
  // More pressure outside presses from the front, more warmth from behind.
  const pressed = (pascals: number, steps: number): readonly Change[] => {
    if (shutIn === null) return [];
    const by = (pressure: number) => asItStands(microphone, pressure * shutIn);
    return [difference(by(-pascals), by(pascals), 2 * steps, "trapped")];
  };
  const perDegree = microphone.air.pressure / microphone.air.temperature;
  return {
    perKelvin: [
      difference(withAir(temperature.down.air), withAir(temperature.up.air), temperature.step, "air"),
      // What nobody gave is not said to be nothing.
      ...(perIndex === null
        ? []
        : [difference(warmed(-steps.temperature), warmed(steps.temperature), 2 * steps.temperature, "material")]),
      difference(stressed(temperature.down), stressed(temperature.up), temperature.step, "stress"),
      { cause: "bias", sensitivity: bias.sensitivity, bandFrom: null, bandTo: null },
      ...pressed(-trappedStep, trappedStep / perDegree),
    ],
    perKilopascal: [
      difference(withAir(pressure.down.air), withAir(pressure.up.air), pressure.step / 1000, "air"),
      ...pressed(trappedStep, trappedStep / 1000),
    ],
    perTenPercent: [difference(withAir(humidity.down.air), withAir(humidity.up.air), humidity.step / 0.1, "air")],
    biasPerKelvin: bias.perKelvin,
    dew: siteDew(brief.site),
    passages: passagesOf(microphone),
  };
}

/** Pressure of the difference for trapped air [Pa]: far below what stiffens a diaphragm. */
const trappedStep = 5;

/**
 * Which share of a change of the barometer lies across the diaphragm, where nothing lets the air behind out [-]: the diaphragm
 * gives way by its volume per pressure, and the air of constant temperature follows, 1 / (1 + P C / V). Null: it is let out.
 */
function trappedShare({ back, diaphragm, air }: Microphone): number | null {
  if (!back?.cavity || back.vent || back.leak) return null;
  const { meanDeflection } = staticPlate(diaphragm, { functions: 8 });
  const perPascal = meanDeflection * diaphragm.across * diaphragm.along;
  return 1 / (1 + (air.pressure * perPascal) / back.cavity.volume);
}

/** Settled anew, with a pressure more across the diaphragm [Pa]; the same where it would not stand. */
function asItStands(microphone: Microphone, more = 0): Microphone {
  const { film, load } = microphone;
  const difference = (load?.difference ?? 0) + more;
  if (difference === 0 && !isBowed(microphone.diaphragm)) return microphone;
  const built = load?.settled?.gap ?? film?.gap ?? null;
  const stands = settled({
    ...microphone,
    film: film && built !== null ? { ...film, gap: built } : null,
    load: { difference },
  });
  return stands.ok ? stands.value : microphone;
}

/** Level of |S| at the reference and the band's upper edge. */
function measurer(brief: Brief, upTo: number | null) {
  const range = {
    from: Math.min(20, brief.reference / 2, (brief.band?.from ?? 40) / 4),
    to: Math.max(2 * brief.reference, 2 * (brief.band?.to ?? 10e3), 1.3 * (upTo ?? 0)),
  };
  const within = brief.band?.withinDb ?? briefDefaults.withinDb;
  return (microphone: Microphone) => {
    const { curve } = leanResponse(microphone, () => range, tolerance);
    const { magnitude, from, to } = leanBand(curve, { reference: brief.reference, within });
    return { level: 20 * Math.log10(magnitude), bandFrom: from, bandTo: to };
  };
}

/** The microphone a step below and above, as the project would describe it. */
function between(parts: Parts, key: "temperature" | "pressure" | "humidity", step: number, now: number) {
  const at = (value: number) => {
    const found = assemble({ ...parts, air: { ...parts.air, [key]: value } });
    return found.ok && notBuckled(found.value.diaphragm).ok ? found.value : null;
  };
  const [low, high] =
    key === "humidity" ? [Math.max(0, now - step), Math.min(1, now + step)] : [now - step, now + step];
  const [down, up] = [at(low), at(high)];
  return down && up ? { down, up, step: high - low } : null;
}

/** dn/dT of the first guide's material or, failing that, of the sheet [1/K]; null where it is not given. */
function indexPerKelvin({ microphone, materials }: Parts): number | null {
  const guide = Array.isArray(microphone?.guide) ? microphone.guide[0] : microphone?.guide;
  const named = guide?.material ?? microphone?.diaphragm?.material;
  if (named === undefined) return null;
  const found = materialOf(named, materials ?? {}, []);
  return found.ok ? (found.value.material.indexPerKelvin?.value ?? null) : null;
}

function withIndex(microphone: Microphone, change: number): Microphone {
  const [first, ...others] = microphone.guides;
  const moved = (guide: typeof first) => ({
    ...guide,
    optics: { ...guide.optics, index: guide.optics.index + change },
  });
  return { ...microphone, guides: [moved(first), ...others.map(moved)] };
}

/** Drift of the bias [rad/K], and what it does to the slope of the output [dB/K]; a bias at quadrature loses nothing at first. */
function biasChange(microphone: Microphone): { readonly perKelvin: number; readonly sensitivity: number } {
  const { readout, guides, light } = microphone;
  const { perKelvin } = phaseAtRest(guides[0], light.wavelength, readout.pathDifference);
  const [bias] = restingBias(microphone);
  const { angle } = outputCurve(transferOf(readout), readout.outputs);
  if (bias === null || bias === undefined) return { perKelvin, sensitivity: 0 };
  const slope = Math.tan(bias + angle);
  const sensitivity = Math.abs(slope) > 1e-6 ? ((20 / Math.LN10) * perKelvin) / slope : 0;
  return { perKelvin, sensitivity: Math.abs(cos(bias + angle)) < 1e-9 ? 0 : sensitivity };
}

function passagesOf({ film, front, back }: Microphone): Surroundings["passages"] {
  const vent = back?.vent;
  return [
    ...(film ? [{ what: "gap" as const, size: film.gap }] : []),
    ...(front?.holes ?? []).map(({ diameter }) => ({ what: "hole" as const, size: diameter })),
    ...(vent ? [{ what: "vent" as const, size: vent.shape === "slit" ? vent.height : vent.diameter }] : []),
    ...(back?.leak ? [{ what: "leak" as const, size: back.leak.height }] : []),
  ];
}
