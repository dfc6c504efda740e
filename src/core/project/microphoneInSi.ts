/** The microphone of a project with its values in SI, and its guides as a list. */
import type { Path } from "../problem.ts";
import type { GuideFile } from "./guideShape.ts";
import type { InSi, ProjectFile } from "./shape.ts";

export type MicrophoneInSi = NonNullable<InSi<ProjectFile>["microphone"]>;
export type GuideInSi = InSi<GuideFile>;

export const guidesOf = (microphone: MicrophoneInSi): readonly GuideInSi[] => {
  const { guide } = microphone;
  return (Array.isArray(guide) ? guide : guide === undefined ? [] : [guide]) as readonly GuideInSi[];
};

/** Path of the i-th guide in the file: a guide that stands alone has no index. */
export const guidePath = (microphone: MicrophoneInSi, i: number): Path =>
  Array.isArray(microphone.guide) ? ["microphone", "guide", i] : ["microphone", "guide"];
