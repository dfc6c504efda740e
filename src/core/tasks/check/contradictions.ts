/**
 * Requirements that contradict each other for any diaphragm of the project's materials and light, told by laws alone, at once.
 *
 *     S f1^2 a = const for one sheet and guide,  f1 ~ h / a^2:   S(f1, h) = S0 (f10 / f1)^(3/2) (h0 / h)^(1/2)
 *     noise >= light's phase noise / S,   loudest <= phase of the readout's sine / S,   1 m/s2 reads as rho h
 *
 * Derivation: docs/theory/choose.md. Holds to some ten per cent for a flat response below one resonance; a
 * requirement is said to be out of reach only where it lies beyond by more. `choose` asks the whole model.
 */

import type { Microphone } from "../../microphone/microphone.ts";
import { lightPower } from "../../microphone/noise/heatPower.ts";
import { lightOf } from "../../microphone/noise/noise.ts";
import { sensitivityScan } from "../../microphone/response/sensitivityScan.ts";
import { restingBias } from "../../microphone/rest/restingBias.ts";
import { leanResolution } from "../../microphone/span/lean.ts";
import { prepare } from "../../microphone/system/prepare.ts";
import { pow } from "../../numerics/power.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import { staticPlate } from "../../parts/diaphragm/statics.ts";
import { totalDistortion } from "../../parts/readout/distortion.ts";
import { answer, type Outcome } from "../../problem.ts";
import { type Brief, briefDefaults, readBrief } from "../../project/brief.ts";
import { readChoices } from "../../project/choices.ts";
import { describe } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";
import { referencePressure, soundLevelDb } from "../../quantity/kinds.ts";
import { lawOf } from "../predict/laws.ts";

export interface Contradiction {
  readonly requirement: string;
  /** SI, levels in dB re 20 uPa. */
  readonly asked: number;
  /** What it could be at best, the requirements `against` it as they are. */
  readonly nearest: number;
  /** Requirements that it can't be met together with; none: the sheet alone stands in the way. */
  readonly against: readonly string[];
  readonly law: string;
}

/** How far beyond the law a requirement must lie to be called out of reach: a ratio, and decibels. */
const beyond = 1.25;
const beyondDb = 2;

/** Problems: those of `describe`. */
export function contradictions(project: Project): Outcome<readonly Contradiction[]> {
  const described = describe(project);
  if (!described.ok) return described;
  const brief = readBrief(project);
  const microphone = flat(described.value);
  return answer([
    ...among(brief),
    ...ofSensitivity(microphone, brief, thinnest(project, microphone)),
    ...ofMass(microphone, brief, thinnest(project, microphone)),
  ]);
}

/** The laws are those of a plate that nothing stretches or loads. */
const flat = (microphone: Microphone): Microphone => {
  const { load: _, ...rest } = microphone;
  const { moment: __, ...diaphragm } = microphone.diaphragm;
  return { ...rest, diaphragm: { ...diaphragm, tension: { across: 0, along: 0 } } };
};

/** Thinnest sheet that may be chosen [m]; the present one where it may not. */
function thinnest(project: Project, { diaphragm }: Microphone): number {
  const choices = (project.file.choices ?? []).length > 0 ? readChoices(project) : null;
  const choice = choices?.ok
    ? choices.value.find(({ path }) => path.text === "microphone.diaphragm.thickness")
    : undefined;
  if (choice === undefined) return diaphragm.thickness;
  return choice.kind === "list" ? Math.min(...choice.values) : choice.from;
}

/** What contradicts itself without any physics. */
function among({ band, damping }: Brief): Contradiction[] {
  const list: Contradiction[] = [];
  if (damping?.atLeast != null && damping.atMost != null && damping.atLeast > damping.atMost)
    list.push({
      requirement: "brief.damping.atLeast",
      asked: damping.atLeast,
      nearest: damping.atMost,
      against: ["brief.damping.atMost"],
      law: "At least is more than at most.",
    });
  if (band?.from != null && band.to != null && band.from >= band.to)
    list.push({
      requirement: "brief.band.from",
      asked: band.from,
      nearest: band.to,
      against: ["brief.band.to"],
      law: "The band begins where it should have ended.",
    });
  return list;
}

function ofSensitivity(microphone: Microphone, brief: Brief, thickness: number): Contradiction[] {
  const { band, sensitivity, noise, loudest } = brief;
  const list: Contradiction[] = [];
  const most = band?.to == null ? null : mostSensitive(microphone, { to: band.to, within: band.withinDb, thickness });
  const asked = sensitivity?.atLeast ?? null;
  if (most !== null && asked !== null && asked > beyond * most)
    list.push({
      requirement: "brief.sensitivity.atLeast",
      asked,
      nearest: most,
      against: ["brief.band.to"],
      law: lawOf("brief.sensitivity.atLeast"),
    });
  const { light } = lightOf(microphone, restingBias(microphone));
  const phase = light === null ? null : Math.sqrt(lightPower(light));
  const quietest = noise?.atMostDb ?? null;
  if (phase !== null && most !== null && quietest !== null) {
    const floor = soundLevelDb(phase / most);
    if (quietest < floor - beyondDb)
      list.push({
        requirement: "brief.noise.atMost",
        asked: quietest,
        nearest: floor,
        against: ["brief.band.to"],
        law: lawOf("brief.noise.atMost"),
      });
  }
  // The response may lie as far above its level at the reference as the band allows, and below.
  const slack = beyondDb + (band?.withinDb ?? briefDefaults.withinDb);
  const loud = loudest?.atLeastDb ?? null;
  const amplitude = largestPhase(loudest?.distortion ?? briefDefaults.distortion);
  const ceiling = (response: number) => soundLevelDb(amplitude / Math.SQRT2 / response);
  const needed = [
    ...(asked === null ? [] : [{ response: asked, against: "brief.sensitivity.atLeast" }]),
    ...(phase === null || quietest === null
      ? []
      : [{ response: phase / (referencePressure * pow(10, quietest / 20)), against: "brief.noise.atMost" }]),
  ].sort((a, b) => b.response - a.response)[0];
  if (loud !== null && needed && loud > ceiling(needed.response) + slack)
    list.push({
      requirement: "brief.loudest.atLeast",
      asked: loud,
      nearest: ceiling(needed.response),
      against: [needed.against],
      law: lawOf("brief.loudest.atLeast"),
    });
  return list;
}

/** A shaken plate reads as the pressure rho h for 1 m/s2; the air around it may help or harm by little. */
function ofMass({ diaphragm }: Microphone, { vibration }: Brief, thickness: number): Contradiction[] {
  const asked = vibration?.atMostDb ?? null;
  const least = soundLevelDb(diaphragm.density * thickness);
  if (asked === null || asked >= least - beyondDb) return [];
  const requirement = "brief.vibration.atMost";
  return [{ requirement, asked, nearest: least, against: [], law: lawOf(requirement) }];
}

/** Largest sensitivity of a diaphragm whose band ends no sooner [rad/Pa]: guide at its best place, first resonance as low as may be. */
function mostSensitive(
  microphone: Microphone,
  { to, within, thickness }: { readonly to: number; readonly within: number; readonly thickness: number },
): number {
  const { diaphragm } = microphone;
  const { best } = sensitivityScan(microphone, staticPlate(diaphragm, { functions: 14 }), { points: 41 });
  const { first } = prepare(microphone, leanResolution(microphone), null);
  const present = Math.sqrt(first / plateScales(diaphragm).lambda) / (2 * Math.PI);
  const wanted = to / levelReach(within);
  const weight = microphone.guides.reduce((sum, guide) => sum + Math.abs(guide.weight), 0);
  return weight * Math.abs(best.value) * pow(present / wanted, 1.5) * Math.sqrt(diaphragm.thickness / thickness);
}

/**
 * How far past its resonance a device of one mode stays within +-W decibels at the best damping [-]: the peak takes +W, the band
 * ends where -W is reached.
 *
 *     |H|^2 = 1 / ((1 - x^2)^2 + (2 zeta x)^2),   peak 1 / (2 zeta sqrt(1 - zeta^2)) = 10^(W / 20)
 */
function levelReach(within: number): number {
  const up = pow(10, within / 20);
  // 4 z (1 - z) = 1 / up^2 with z = zeta^2 below 1/2; the upper end solves (1 - y)^2 + 4 z y = up^2 with y = x^2.
  const z = (1 - Math.sqrt(1 - 1 / up ** 2)) / 2;
  const half = 1 - 2 * z;
  return Math.sqrt(half + Math.sqrt(half ** 2 + up ** 2 - 1));
}

/** Amplitude of a phase at which a readout at quadrature distorts so much [rad]. */
function largestPhase(distortion: number): number {
  const share = (amplitude: number) =>
    totalDistortion([
      { weight: 1, amplitude: 1, rest: -Math.PI / 2, slope: 1, phases: [{ re: amplitude, im: 0 }], shift: 0 },
    ]) ?? 1;
  let [low, high] = [1e-3, 1.8];
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2;
    if (share(middle) < distortion) low = middle;
    else high = middle;
  }
  return low;
}
