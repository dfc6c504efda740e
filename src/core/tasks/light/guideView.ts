/** A guide that is made by profile or process, as a page shows it: index, fields, coupling. */
import type { Guide } from "../../parts/guide/guide.ts";
import { fiberCoupling, type GuideModes, guideFields, guideModes, isModes } from "../../parts/guide/guideModes.ts";
import { type ModePicture, pictureOf } from "../../parts/guide/modes/modeShape.ts";
import { sectionOf } from "../../parts/guide/profile.ts";
import { answer, type Outcome, refuse } from "../../problem.ts";
import { assemble, describe, type Parts, partsOf } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";
import { type GuideInSi, guidesOf } from "../../project/microphoneInSi.ts";
import { type Made, profileOf } from "../../project/profileOf.ts";

export interface GuideView {
  /** Index of the glass without the guide [-]. */
  readonly base: number;
  /** Index down the middle of the guide, z inward [m], for either field. */
  readonly profile: { readonly z: readonly number[]; readonly te: readonly number[]; readonly tm: readonly number[] };
  readonly modes: GuideModes;
  readonly te: ModePicture;
  readonly tm: ModePicture;
  /** Power from the fiber into each mode, at the depth that suits best [m]; null: no fiber is given. */
  readonly coupling: { readonly depth: number; readonly te: number; readonly tm: number } | null;
}

/** First guide of a project as it is made. Problems: those of `describe`; `guide-not-made` where its depth is given by hand. */
export function madeGuide(
  project: Project,
): Outcome<{ readonly made: Made; readonly guide: Guide; readonly wavelength: number }> {
  const described = describe(project);
  if (!described.ok) return described;
  const [said] = guidesOf(partsOf(project).microphone ?? {});
  const made = said === undefined || said.depth !== undefined ? answer(null) : profileOf(said, ["microphone", "guide"]);
  if (!made.ok) return made;
  if (made.value === null) return refuse(notMade);
  const { guides, light } = described.value;
  return answer({ made: made.value, guide: guides[0], wavelength: light.wavelength });
}

const notMade = {
  code: "guide-not-made",
  path: ["microphone", "guide", "profile"],
  message:
    "The depth of the mode is given by hand here, so there is no profile to solve. Take out the depth and give a profile or a process.",
};

/** Problems: those of `madeGuide`. */
export function guideView(project: Project): Outcome<GuideView> {
  const found = madeGuide(project);
  if (!found.ok) return found;
  const { made, guide, wavelength } = found.value;
  const base = guide.optics.index;
  const modes = guideModes(made.profile, base, wavelength);
  const fields = guideFields(made.profile, base, wavelength);
  if (!isModes(modes) || fields === null) throw new Error("guideView: described, so it has modes");
  const { te, tm } = fields;
  const section = sectionOf(made.profile, base, wavelength);
  const below = modes.te.depth + 1.4 * modes.te.height;
  const size = { reach: 1.3 * modes.te.width, above: 0.15 * below, below, columns: 61, rows: 61 };
  const z = Array.from({ length: 121 }, (_, i) => (below * i) / 120);
  const described = describe(project);
  const diameter = described.ok ? described.value.light.fiberMode : null;
  return answer({
    base,
    profile: {
      z,
      te: z.map((at) => section.index(0, at, "TE")),
      tm: z.map((at) => section.index(0, at, "TM")),
    },
    modes,
    te: pictureOf(te, size),
    tm: pictureOf(tm, size),
    coupling: diameter === null ? null : fiberCoupling({ te, tm }, diameter),
  });
}

/** Index of the first guide's glass at a wavelength [-]; null where it has none. */
export function baseIndexAt(project: Project, wavelength: number): number | null {
  const parts = partsOf(project);
  const microphone = parts.microphone ?? {};
  const [first] = guidesOf(microphone);
  const plain: GuideInSi = { ...first, depth: 1e-9, width: null, birefringence: 0 };
  const there = { ...parts, microphone: { ...microphone, guide: plain, light: { ...microphone.light, wavelength } } };
  const described = assemble(there as Parts);
  return described.ok ? described.value.guides[0].optics.index : null;
}
