/**
 * What each number is most sensitive to: relative sensitivities of the main numbers to every value of the project.
 *
 *     exponent = d ln y / d ln x ~ (ln y(x (1 + h)) - ln y(x (1 - h))) / (ln(1 + h) - ln(1 - h))
 *
 * One percent more of x makes y larger by so many percent. A temperature counts from absolute zero. Values that are zero have
 * no relative change and are left out, as are those that the computed microphone does not depend on.
 * Derivation: central difference; its error is h^2 / 6 of the third logarithmic derivative, and that of the answers over h.
 */
import { createEngine, type Engine, settle } from "../../microphone/engine.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { settled } from "../../microphone/rest/rest.ts";
import { answer, type Outcome, refuse } from "../../problem.ts";
import { type Brief, readBrief } from "../../project/brief.ts";
import { completed } from "../../project/defaults.ts";
import { describe } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";
import type { Steps } from "../../project/lookUp.ts";
import { findPath, type ValuePath, vary } from "../../project/paths.ts";
import { formatNumber } from "../../quantity/format.ts";
import { watchMicrophone } from "./predict.ts";
import type { Card, Prediction } from "./prediction.ts";

/** How a number follows one value. */
export interface Sensitivity {
  /** "microphone.diaphragm.thickness" */
  readonly path: string;
  /** As beside a field: "Thickness". */
  readonly label: string;
  /** d ln y / d ln x [-] */
  readonly exponent: number;
}

/** Numbers of a prediction that are followed, by their place in it. */
export const followed = [
  "sensitivity.static",
  "sensitivity.magnitude",
  "resonance.frequency",
  "resonance.dampingRatio",
  "band.from",
  "band.to",
] as const;
export type Followed = (typeof followed)[number];

/** Of each number the values that it depends on, the strongest first; empty where the number itself is absent. */
export type Sensitivities = { readonly [of in Followed]: readonly Sensitivity[] };

/** Relative step to either side [-]. */
const step = 1e-3;
/** A smaller damping ratio is the round-off of a device without any [-]. */
const undamped = 1e-9;
/** Below this nothing is told from the errors of the answers [-]. */
const nothing = 1e-3;

/** Yields after each value. Refused where the project is, or with `buckled`. */
export function* sensitivities(
  project: Project,
  options: { readonly engine?: Engine } = {},
): Generator<{ readonly done: number; readonly of: number }, Outcome<Sensitivities>> {
  const described = describe(project);
  if (!described.ok) return described;
  const flat = settled(described.value);
  if (!flat.ok) return refuse(...flat.problems);
  const brief = readBrief(project);
  const engine = options.engine ?? createEngine();
  const paths = valuesThatCount(project, described.value);
  const found = new Map<Followed, Sensitivity[]>(followed.map((of) => [of, []]));
  for (const [i, path] of paths.entries()) {
    const ends = [1 - step, 1 + step].map((factor) => numbersAt(project, path, factor, brief, engine));
    const [low, high] = ends;
    for (const of of followed) {
      const [below, above] = [low?.[of] ?? null, high?.[of] ?? null];
      if (below === null || above === null || !(below / above > 0)) continue;
      const exponent = Math.log(above / below) / Math.log((1 + step) / (1 - step));
      if (Math.abs(exponent) >= nothing)
        found.get(of)?.push({ path: path.text, label: labelOf(path, project), exponent });
    }
    yield { done: i + 1, of: paths.length };
  }
  const strongestFirst = (of: Followed) =>
    [...(found.get(of) ?? [])].sort((a, b) => Math.abs(b.exponent) - Math.abs(a.exponent));
  return answer({
    "sensitivity.static": strongestFirst("sensitivity.static"),
    "sensitivity.magnitude": strongestFirst("sensitivity.magnitude"),
    "resonance.frequency": strongestFirst("resonance.frequency"),
    "resonance.dampingRatio": strongestFirst("resonance.dampingRatio"),
    "band.from": strongestFirst("band.from"),
    "band.to": strongestFirst("band.to"),
  });
}

/** Values of the project, given or default, with which the microphone changes. */
function valuesThatCount(project: Project, microphone: Microphone): readonly ValuePath[] {
  const before = JSON.stringify(microphone);
  const { air, materials, microphone: device } = completed(project.file);
  return leaves({ air, materials, microphone: device }, []).flatMap((steps) => {
    const found = findPath(steps);
    if (!found.ok) return [];
    const changed = at(project, found.value, 1 + step);
    return changed !== null && JSON.stringify(changed) !== before ? [found.value] : [];
  });
}

function leaves(node: unknown, path: Steps): readonly Steps[] {
  if (typeof node === "string" || typeof node === "number") return [path];
  if (Array.isArray(node)) return node.flatMap((item, i) => leaves(item, [...path, i]));
  if (typeof node !== "object" || node === null) return [];
  return Object.entries(node).flatMap(([key, value]) => leaves(value, [...path, key]));
}

/** The microphone with one value times a factor; null where that is none, or none that can be. */
function at(project: Project, { steps }: ValuePath, factor: number): Microphone | null {
  const varied = vary(project, [steps]);
  const start = varied.ok ? varied.value.start[0] : null;
  if (!varied.ok || start === null || start === undefined || start === 0) return null;
  const changed = varied.value.at([start * factor]);
  return changed.ok ? changed.value : null;
}

function numbersAt(
  project: Project,
  path: ValuePath,
  factor: number,
  brief: Brief,
  engine: Engine,
): { readonly [of in Followed]: number | null } | null {
  const microphone = at(project, path, factor);
  const stands = microphone && settle(engine, microphone);
  if (!stands?.ok) return null;
  const { sensitivity, resonance, band } = watchMicrophone(stands.value, brief, { engine, manner: "quick" });
  return {
    "sensitivity.static": sensitivity.static,
    "sensitivity.magnitude": sensitivity.magnitude,
    "resonance.frequency": resonance.frequency,
    "resonance.dampingRatio": (resonance.dampingRatio ?? 0) > undamped ? resonance.dampingRatio : null,
    "band.from": band.from,
    "band.to": band.to,
  };
}

/** "Thickness"; "Air temperature, 1 % is 2.96 K", because nobody thinks of temperatures from absolute zero. */
function labelOf({ label, kind, read }: ValuePath, project: Project): string {
  const value = kind === "temperature" ? read(project) : null;
  return value?.ok ? `${label}, 1 % is ${formatNumber(value.value / 100, { digits: 3 })} K` : label;
}

/** Which card stands behind which number. */
const cardOf: { readonly [of in Followed]: string } = {
  "sensitivity.static": "staticSensitivity",
  "sensitivity.magnitude": "response",
  "resonance.frequency": "resonance",
  "resonance.dampingRatio": "resonance",
  "band.from": "band",
  "band.to": "band",
};

/** Values that a card names; what moves a number by less than this for one percent is not worth a word [-]. */
const named = { most: 6, least: 0.02 };

/** The cards, each with what its numbers are most sensitive to. */
export function withSensitivities(cards: Prediction["cards"], found: Sensitivities): Prediction["cards"] {
  return Object.fromEntries(
    Object.entries(cards).map(([key, card]): [string, Card] => {
      const mostSensitiveTo = followed
        .filter((of) => cardOf[of] === key)
        .map((of) => ({
          number: of,
          to: found[of].filter(({ exponent }) => Math.abs(exponent) >= named.least).slice(0, named.most),
        }))
        .filter(({ to }) => to.length > 0);
      return [key, mostSensitiveTo.length === 0 ? card : { ...card, mostSensitiveTo }];
    }),
  );
}
