/** Damping ratio and resonance over the gap of the air film: the curve that a designer must see. */

import { createEngine, type Engine, lineOf, settle, shapeEntry } from "../../microphone/engine.ts";
import { findPoles } from "../../microphone/poles/poles.ts";
import { enginePoles } from "../../microphone/poles/shapePoles.ts";
import { withLevelFilm } from "../../microphone/system/relief.ts";
import { hasWallHole } from "../../microphone/system/wallHole.ts";
import type { Complex } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import { answer, type Outcome, refuse } from "../../problem.ts";
import { describe } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";
import { createBranch } from "./followBranch.ts";
import { sharesOf } from "./mainResonance.ts";

export interface DampingCurve {
  /** [m], in equal ratios. */
  readonly gap: readonly number[];
  /** Of the resonance [-]; above 1 where two real poles make it; null where nothing does. */
  readonly dampingRatio: readonly (number | null)[];
  /** [Hz] */
  readonly frequency: readonly (number | null)[];
}

/**
 * Yields after every gap what is there so far. Refused where the project is, where it has no film (`no-film`), or is buckled.
 */
export function* dampingAgainstGap(
  project: Project,
  options: { readonly from: number; readonly to: number; readonly count: number; readonly engine?: Engine },
): Generator<{ readonly done: number; readonly of: number; readonly soFar: DampingCurve }, Outcome<DampingCurve>> {
  const described = describe(project);
  if (!described.ok) return described;
  const { film } = described.value;
  if (!film) {
    return refuse({
      code: "no-film",
      path: ["microphone", "film"],
      message: "This microphone has no air film; damping over its gap needs one. Add microphone.film.",
    });
  }
  const engine = options.engine ?? createEngine();
  const stands = settle(engine, described.value);
  if (!stands.ok) return stands;
  // Each gap with the mean under a bent diaphragm: bases for the gap of each place serve a class of gaps only.
  const microphone = withLevelFilm(stands.value);
  // The gap on the axis is that as built; a static load leaves less of it, or more.
  const { mean: moved = 0, center: touches = 0 } = microphone.load?.settled ?? {};
  const { from, to, count } = options;
  // One preparation serves all gaps: the resonance is a smooth shape, however thin the film.
  const entry = shapeEntry(engine, microphone);
  let near: readonly Complex[] = [];
  const gap: number[] = [];
  const dampingRatio: (number | null)[] = [];
  const frequency: (number | null)[] = [];
  const branch = createBranch();
  // From the widest gap on: there the film is weak and the resonance that of the plate; thinner ones follow it.
  for (let i = count - 1; i >= 0; i--) {
    const here = from * pow(to / from, i / Math.max(1, count - 1));
    gap.unshift(here);
    let found: { readonly dampingRatio: number | null; readonly frequency: number | null } = none;
    if (here > touches) {
      const there = { ...microphone, film: { ...film, gap: here - moved } };
      const poles = hasWallHole(there)
        ? findPoles(entry.prepared, there, { quick: true, near })
        : enginePoles(entry, there, { upTo: 0, near });
      near = poles.near;
      const { resonances, decays } = sharesOf(poles, there, lineOf(entry, there));
      found = branch(Math.log(here), resonances, decays);
    }
    dampingRatio.unshift(found.dampingRatio);
    frequency.unshift(found.frequency);
    yield {
      done: count - i,
      of: count,
      soFar: { gap: [...gap], dampingRatio: [...dampingRatio], frequency: [...frequency] },
    };
  }
  return answer({ gap, dampingRatio, frequency });
}

const none = { dampingRatio: null, frequency: null };
