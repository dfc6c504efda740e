/** How long in the bath? Single mode, and the largest phase per pascal times the root of the throughput. */
import { pow } from "../../numerics/power.ts";
import { exchangedProfile } from "../../parts/guide/exchange.ts";
import { fiberCoupling, guideFields, guideModes, isModes } from "../../parts/guide/guideModes.ts";
import { guideBending } from "../../parts/guide/readings.ts";
import { answer, type Outcome, refuse } from "../../problem.ts";
import { describe } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";
import { madeGuide } from "./guideView.ts";
import { heldBy } from "./modeWindow.ts";

export interface ExchangeTime {
  /** [s], with what each gives; `merit` over the best one [-]; null where it holds no mode or several. */
  readonly tried: readonly {
    readonly time: number;
    readonly depth: number | null;
    readonly coupling: number | null;
    readonly merit: number | null;
  }[];
  /** [s]; null: at none of these times is the guide single mode. */
  readonly best: number | null;
}

/** Around the project's own time, a fifth to eight times of it. Problems: those of `madeGuide`, `no-bath` where no bath makes the guide, `no-fiber` where no fiber's mode is given. */
export function* exchangeTime(
  project: Project,
  options: {
    readonly points: number;
    /** How often the times beside the best one are halved; 3 where absent. */
    readonly halvings?: number;
  },
): Generator<{ readonly done: number; readonly of: number }, Outcome<ExchangeTime>> {
  const found = madeGuide(project);
  const described = describe(project);
  if (!found.ok) return found;
  if (!described.ok) return described;
  const { made, guide, wavelength } = found.value;
  const { diaphragm, light } = described.value;
  const { exchange } = made;
  if (exchange === null)
    return refuse({
      code: "no-bath",
      path: ["microphone", "guide", "process"],
      message: "No bath makes this guide, so there is no time to choose. Give an ion exchange as its process.",
    });
  const diameter = light.fiberMode;
  if (diameter === null)
    return refuse({
      code: "no-fiber",
      path: ["microphone", "light", "fiber", "mode"],
      message:
        'The throughput needs the mode-field diameter of the fiber: give light.fiber.mode, for example "4.3 um".',
    });
  const { points, halvings = 3 } = options;
  const raw: { time: number; depth: number | null; coupling: number | null; merit: number | null }[] = [];
  const of = points + 2 * halvings;
  const attempt = (time: number) => {
    raw.push({ time, ...tried(time) });
    raw.sort((a, b) => a.time - b.time);
  };
  for (let i = 0; i < points; i++) {
    attempt(exchange.time * 0.2 * pow(40, i / Math.max(1, points - 1)));
    yield { done: i + 1, of };
  }
  for (let i = 0; i < halvings; i++) {
    const middle = raw.reduce((most, one, at) => ((one.merit ?? 0) > (raw[most]?.merit ?? 0) ? at : most), 0);
    if (raw[middle]?.merit === null) break;
    const sides = [middle - 1, middle + 1].map((side) => Math.sqrt((raw[side]?.time ?? 0) * (raw[middle]?.time ?? 0)));
    for (const time of sides) if (time > 0) attempt(time);
    yield { done: points + 2 * (i + 1), of };
  }
  const top = raw.reduce((most, { merit }) => Math.max(most, merit ?? 0), 0);
  const best = raw.find(({ merit }) => merit !== null && merit === top)?.time ?? null;
  return answer({ tried: raw.map((one) => ({ ...one, merit: one.merit === null ? null : one.merit / top })), best });

  function tried(time: number) {
    const profile = exchangedProfile({ ...(exchange ?? missing()), time });
    const base = guide.optics.index;
    // Counting takes a fraction of solving: only guides of one mode are solved for.
    if (heldBy(profile, base, wavelength) !== 1) return { depth: null, coupling: null, merit: null };
    const modes = guideModes(profile, base, wavelength);
    if (!isModes(modes)) return { depth: null, coupling: null, merit: null };
    const depth = (modes.te.depth + modes.tm.depth) / 2;
    const fields = guideFields(profile, base, wavelength);
    if (fields === null) return { depth, coupling: null, merit: null };
    const into = fiberCoupling(fields, diameter ?? missing());
    const coupling = (into.te + into.tm) / 2;
    const there = { ...guide, modes: { te: modes.te, tm: modes.tm } };
    const phase = Math.abs(guideBending({ guide: there, wavelength, diaphragm }).xx);
    return { depth, coupling, merit: phase * Math.sqrt(coupling) };
  }
}

function missing(): never {
  throw new Error("exchangeTime: refused before");
}
