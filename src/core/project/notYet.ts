/** What a project may describe and this program does not compute yet. Such a part is refused, never ignored; the table shrinks. */
import type { Problem } from "../problem.ts";
import type { GuideFile } from "./microphoneShape.ts";
import type { InSi, ProjectFile } from "./shape.ts";

export type MicrophoneInSi = NonNullable<InSi<ProjectFile>["microphone"]>;
export type GuideInSi = InSi<GuideFile>;

export const guidesOf = (microphone: MicrophoneInSi): readonly GuideInSi[] => {
  const { guide } = microphone;
  return (Array.isArray(guide) ? guide : guide === undefined ? [] : [guide]) as readonly GuideInSi[];
};

/** Path of the i-th guide in the file: a guide that stands alone has no index. */
export const guidePath = (microphone: MicrophoneInSi, i: number): readonly (string | number)[] =>
  Array.isArray(microphone.guide) ? ["microphone", "guide", i] : ["microphone", "guide"];

interface NotYet {
  readonly what: string;
  readonly path: readonly (string | number)[];
  readonly leaveOut: string;
  readonly present: (microphone: MicrophoneInSi) => boolean;
}

const table: readonly NotYet[] = [
  {
    what: "A readout other than the polarimetric one is",
    path: ["microphone", "readout", "kind"],
    leaveOut: '"kind": "polarimetric"',
    present: ({ readout }) => (readout?.kind ?? "polarimetric") !== "polarimetric",
  },
];

const isThere = (value: unknown) => value !== undefined && value !== null;

/** Problems: `not-yet-computed`, one for each such part. */
export function notYetComputed(microphone: MicrophoneInSi): Problem[] {
  const parts = table
    .filter(({ present }) => present(microphone))
    .map(({ what, path, leaveOut }) => problem(`${what} not computed yet`, path, leaveOut));
  const guides = guidesOf(microphone).flatMap((guide, i) => {
    if (guide.depth !== undefined) return [];
    const key = isThere(guide.profile) ? "profile" : isThere(guide.process) ? "process" : null;
    if (key === null) return [];
    return [
      problem(
        `The depth of a mode from its ${key} is not computed yet`,
        [...guidePath(microphone, i), key],
        '"depth": "3 um"',
      ),
    ];
  });
  return [...parts, ...guides];
}

const problem = (what: string, path: readonly (string | number)[], instead: string): Problem => ({
  code: "not-yet-computed",
  path,
  message: `${what}. It would change the response, so nothing is computed; write ${instead} to go on.`,
});
