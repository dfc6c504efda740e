/** The modes of a guide as the microphone needs them: where each fundamental mode is, and how many there are. */
import type { GuideMode } from "./guide.ts";
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
  /** Guided modes of each polarization, counted up to four [-]. */
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

const remembered = new Map<string, GuideModes | NoModes>();
const kept = 64;

/** Solves both fundamental modes of a profile. The last answers are remembered: the same question is the same answer. */
export function guideModes(profile: Profile, base: number, wavelength: number): GuideModes | NoModes {
  const key = JSON.stringify([profile, base, wavelength]);
  const known = remembered.get(key);
  if (known) return known;
  const found = solvePair(sectionOf(profile, base, wavelength), wavelength, degreeFor(profile));
  if (remembered.size >= kept) remembered.delete(remembered.keys().next().value ?? "");
  remembered.set(key, found);
  return found;
}

export const isModes = (found: GuideModes | NoModes): found is GuideModes => "te" in found;

function solvePair(section: CrossSection, wavelength: number, degree: number): GuideModes | NoModes {
  const highest = Math.max(section.highest.TE, section.highest.TM);
  if (section.cover >= highest) return { kind: "cover", cover: section.cover, highest };
  const te = fundamental(section, { wavelength, polarization: "TE", degree });
  if (te === null) return { kind: "none", polarization: "TE" };
  const tm = fundamental(section, { wavelength, polarization: "TM", degree });
  if (tm === null) return { kind: "none", polarization: "TM" };
  return {
    te: te.mode,
    tm: tm.mode,
    count: { te: countModes(section, wavelength, "TE"), tm: countModes(section, wavelength, "TM") },
    change: Math.max(te.change, tm.change),
  };
}

const question = { field: "semivectorial", odd: false, count: 1 } as const;

function fundamental(
  section: CrossSection,
  asked: { readonly wavelength: number; readonly polarization: Polarization; readonly degree: number },
) {
  const [mode] = solveModes(section, { ...question, ...asked });
  if (mode === undefined) return null;
  const [coarser] = solveModes(section, { ...question, ...asked, degree: asked.degree - 1 });
  const change = Math.abs(mode.index - (coarser?.index ?? section.cutoff[asked.polarization]));
  return { mode: { index: mode.index, ...shapeOf(mode) }, change };
}

/** Guided modes of one polarization, even and odd across, up to two of each; on a coarse grid. */
export function countModes(section: CrossSection, wavelength: number, polarization: Polarization): number {
  return [false, true].reduce(
    (sum, odd) => sum + solveModes(section, { ...question, wavelength, polarization, odd, count: 2, degree: 3 }).length,
    0,
  );
}

/** One fundamental mode with its field, for pictures and couplings; null where there is none. */
export function fieldOf(profile: Profile, base: number, wavelength: number, polarization: Polarization): Mode | null {
  const section = sectionOf(profile, base, wavelength);
  return solveModes(section, { ...question, wavelength, polarization, degree: degreeFor(profile) })[0] ?? null;
}

/** Power that a fiber of a mode-field diameter [m] puts into each mode, both at the depth that suits TE best. */
export function fiberCoupling(
  modes: { readonly te: Mode; readonly tm: Mode },
  diameter: number,
): { readonly depth: number; readonly te: number; readonly tm: number } {
  const { depth, power } = bestCoupling(modes.te, diameter);
  return { depth, te: power, tm: bestCoupling(modes.tm, diameter).power };
}
