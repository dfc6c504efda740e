/** Where a guide holds one mode: a chart over wavelength and over time in the bath, depth or width. */
import { pow } from "../../numerics/power.ts";
import { exchangedProfile } from "../../parts/guide/exchange.ts";
import { countModes } from "../../parts/guide/modes/countModes.ts";
import type { Polarization } from "../../parts/guide/modes/crossSection.ts";
import { type Profile, sectionOf } from "../../parts/guide/profile.ts";
import { answer, type Outcome } from "../../problem.ts";
import type { Project } from "../../project/load.ts";
import type { Made } from "../../project/profileOf.ts";
import { baseIndexAt, madeGuide } from "./guideView.ts";

/** "depth": time in the bath where there is one, else depth of the profile, or thickness of all layers. */
export type WindowAxis = "depth" | "width";

/** 0: a polarization has no mode; 1: one each; 2: several. */
export type Held = 0 | 1 | 2;

export interface ModeWindow {
  /** [m] */
  readonly wavelength: readonly number[];
  /** What `size` is, and its values: [s] or [m], in equal ratios around the present one. */
  readonly kind: "time" | "depth" | "width";
  readonly size: readonly number[];
  readonly present: { readonly wavelength: number; readonly size: number };
  /** Row-major, rows of size; null: not computed yet, or the glass has no index there. */
  readonly held: readonly (Held | null)[];
}

/** Coarse points first, so that the chart is there early and refines. Problems: those of `madeGuide`. */
export function* modeWindow(
  project: Project,
  options: { readonly against: WindowAxis; readonly points: number },
): Generator<{ readonly done: number; readonly of: number; readonly soFar: ModeWindow }, Outcome<ModeWindow>> {
  const found = madeGuide(project);
  if (!found.ok) return found;
  const { made, wavelength: present } = found.value;
  const { points } = options;
  const axis = axisOf(made, options.against);
  const ratio = (i: number) => i / Math.max(1, points - 1);
  const wavelength = Array.from({ length: points }, (_, i) => present * 0.6 * pow(2.6 / 0.6, ratio(i)));
  const size = Array.from({ length: points }, (_, i) => axis.present * (1 / 6) * pow(36, ratio(i)));
  const bases = wavelength.map((one) => baseIndexAt(project, one));
  const held: (Held | null)[] = new Array(points * points).fill(null);
  const window = (): ModeWindow => ({
    wavelength,
    kind: axis.kind,
    size,
    present: { wavelength: present, size: axis.present },
    held: [...held],
  });
  const order = refining(points);
  for (const [done, { row, column }] of order.entries()) {
    const base = bases[column] ?? null;
    if (base !== null) held[row * points + column] = heldBy(axis.at(size[row]!), base, wavelength[column]!);
    if (done % 5 === 4 || done === order.length - 1) yield { done: done + 1, of: order.length, soFar: window() };
  }
  return answer(window());
}

/** Every fourth point of every fourth row, then every second, then all. */
function refining(points: number): { readonly row: number; readonly column: number }[] {
  const level = (i: number) => (i % 4 === 0 ? 0 : i % 2 === 0 ? 1 : 2);
  const all = Array.from({ length: points * points }, (_, i) => ({ row: Math.floor(i / points), column: i % points }));
  const pass = ({ row, column }: { row: number; column: number }) => Math.max(level(row), level(column));
  return [0, 1, 2].flatMap((wanted) => all.filter((point) => pass(point) === wanted));
}

function axisOf(
  { profile, exchange }: Made,
  against: WindowAxis,
): { readonly kind: ModeWindow["kind"]; readonly present: number; readonly at: (size: number) => Profile } {
  if (exchange !== null) {
    if (against === "width")
      return { kind: "width", present: exchange.window, at: (window) => exchangedProfile({ ...exchange, window }) };
    return { kind: "time", present: exchange.time, at: (time) => exchangedProfile({ ...exchange, time }) };
  }
  if (profile.kind !== "layered") {
    if (against === "width") return { kind: "width", present: profile.width, at: (width) => ({ ...profile, width }) };
    return { kind: "depth", present: profile.depth, at: (depth) => ({ ...profile, depth }) };
  }
  const { layers } = profile;
  const strip = layers.reduce((widest, { width }) => Math.max(widest, width ?? 0), 0);
  if (against === "width" && strip > 0)
    return {
      kind: "width",
      present: strip,
      at: (width) => ({
        ...profile,
        layers: layers.map((layer) => ({
          ...layer,
          width: layer.width === null ? null : (layer.width * width) / strip,
        })),
      }),
    };
  const stack = layers.reduce((sum, { thickness }) => sum + thickness, 0);
  return {
    kind: "depth",
    present: stack,
    at: (depth) => ({
      ...profile,
      layers: layers.map((layer) => ({ ...layer, thickness: (layer.thickness * depth) / stack })),
    }),
  };
}

/**
 * Counted at the cut-off, on elements of degree 3. Those of degree 2 take a fifth of the time and may err by one or two: where they
 * find that many more than needed, they are believed.
 */
export function heldBy(profile: Profile, base: number, wavelength: number): Held {
  const section = sectionOf(profile, base, wavelength);
  const count = (polarization: Polarization, odd: boolean, degree = 3) =>
    countModes(section, { wavelength, polarization, odd, degree });
  const several = count("TE", false, 2) >= 4;
  const te = several ? 2 : count("TE", false);
  if (te === 0) return 0;
  if (te > 1 && count("TM", false, 2) >= 3) return 2;
  const tm = count("TM", false);
  if (tm === 0) return 0;
  return te > 1 || tm > 1 || count("TE", true) > 0 || count("TM", true) > 0 ? 2 : 1;
}
