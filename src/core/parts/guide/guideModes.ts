/** The modes of a guide as the microphone needs them: where each fundamental mode is, and how many there are. */
import type { GuideMode } from "./guide.ts";
import { countModes } from "./modes/countModes.ts";
import type { CrossSection, Polarization } from "./modes/crossSection.ts";
import { bestCoupling, type ModeShape, shapeOf } from "./modes/modeShape.ts";
import { type Mode, solveModes } from "./modes/solveModes.ts";
import { type Profile, sectionOf } from "./profile.ts";

export interface SolvedMode extends GuideMode, ModeShape {
  readonly width: number;
}

export interface GuideModes {
  readonly te: SolvedMode;
  readonly tm: SolvedMode;
  /** Guided modes of each polarization, even and odd across [-]. */
  readonly count: { readonly te: number; readonly tm: number };
  /** Change of the effective indices against one degree less: an upper estimate of their error [-]. */
  readonly change: number;
}

/** Degree of the elements: 1e-7 of index in diffused guides of glass; corners of sharp cores want more (docs/theory/modes.md). */
const degreeFor = (profile: Profile): number =>
  profile.kind === "layered" || profile.kind === "step" || profile.edge === 0 ? 6 : 4;

/** Why there is no pair of modes. */
export type NoModes =
  | { readonly kind: "none"; readonly polarization: Polarization }
  | { readonly kind: "cover"; readonly cover: number; readonly highest: number };

/** An answer with the fields that it was read from; null where there are none. */
interface Solved {
  readonly answer: GuideModes | NoModes;
  readonly fields: { readonly te: Mode; readonly tm: Mode } | null;
}

const remembered = new Map<string, Solved>();
const kept = 64;

/** Solves both fundamental modes of a profile. The last answers are remembered: the same question is the same answer. */
export const guideModes = (profile: Profile, base: number, wavelength: number): GuideModes | NoModes =>
  solved(profile, base, wavelength).answer;

/** Both fundamental modes with their fields, for pictures and couplings; null where one of them is missing. */
export const guideFields = (profile: Profile, base: number, wavelength: number): Solved["fields"] =>
  solved(profile, base, wavelength).fields;

export const isModes = (found: GuideModes | NoModes): found is GuideModes => "te" in found;

function solved(profile: Profile, base: number, wavelength: number): Solved {
  const key = JSON.stringify([profile, base, wavelength]);
  const known = remembered.get(key);
  if (known) return known;
  const found = solvePair(sectionOf(profile, base, wavelength), wavelength, degreeFor(profile));
  if (remembered.size >= kept) remembered.delete(remembered.keys().next().value ?? "");
  remembered.set(key, found);
  return found;
}

function solvePair(section: CrossSection, wavelength: number, degree: number): Solved {
  const without = (answer: NoModes): Solved => ({ answer, fields: null });
  const highest = Math.max(section.highest.TE, section.highest.TM);
  if (section.cover >= highest) return without({ kind: "cover", cover: section.cover, highest });
  const question = { wavelength, degree, field: "semivectorial", odd: false, count: 1 } as const;
  const [te] = solveModes(section, { ...question, polarization: "TE" });
  if (te === undefined) return without({ kind: "none", polarization: "TE" });
  const [tm] = solveModes(section, { ...question, polarization: "TM" });
  if (tm === undefined) return without({ kind: "none", polarization: "TM" });
  const change = [te, tm].map((mode) => {
    const { polarization, coarser } = mode;
    // At corners the error falls slowly with the degree: the one before says more of it than the coarse grid's.
    const before =
      degree > 4 ? solveModes(section, { ...question, polarization, degree: degree - 1 })[0]?.index : coarser;
    return Math.abs(mode.index - (before ?? section.cutoff[polarization]));
  });
  return {
    answer: {
      te: { index: te.index, ...shapeOf(te) },
      tm: { index: tm.index, ...shapeOf(tm) },
      count: { te: countAll(section, wavelength, "TE"), tm: countAll(section, wavelength, "TM") },
      change: Math.max(...change),
    },
    fields: { te, tm },
  };
}

/** Modes of one polarization; one was solved for, however close to its cut-off. */
function countAll(section: CrossSection, wavelength: number, polarization: Polarization): number {
  const count = (odd: boolean) => countModes(section, { wavelength, polarization, odd, degree: 3 });
  return Math.max(1, count(false)) + count(true);
}

/** Power that a fiber of a mode-field diameter [m] puts into each mode, both at the depth that suits TE best. */
export function fiberCoupling(
  modes: { readonly te: Mode; readonly tm: Mode },
  diameter: number,
): { readonly depth: number; readonly te: number; readonly tm: number } {
  const { depth, power } = bestCoupling(modes.te, diameter);
  return { depth, te: power, tm: bestCoupling(modes.tm, diameter).power };
}
