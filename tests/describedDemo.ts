/** What the demo, or another project, describes once some values are changed: for the tests of `describe` and of its rooms. */
import type { Microphone } from "../src/core/microphone/microphone.ts";
import { type Outcome, pathText } from "../src/core/problem.ts";
import { describe } from "../src/core/project/describe.ts";
import { changed, demo } from "./demoProject.ts";
import { good } from "./outcomes.ts";

type Values = Readonly<Record<string, string>>;

export const described = (values: Values, project = demo): Outcome<Microphone> => describe(changed(project, values));

export const microphone = (values: Values, project = demo): Microphone => good(described(values, project));

/** "code path" of each remark, or of each problem. */
export const said = (outcome: Outcome<unknown>): string[] =>
  (outcome.ok ? outcome.remarks : outcome.problems).map(({ code, path }) => `${code} ${pathText(path)}`);
