/** `glassdrum chart`: what the microphone would do over any two of its values. */
import {
  answer,
  axisAround,
  type ChartAxis,
  type ChartPlane,
  findPath,
  mergePlanes,
  type Outcome,
  type Project,
  readQuantity,
  refuse,
} from "../core/index.ts";
import { chartLines } from "../words/en/chart.ts";
import { answerJson, answerLine, answerProblems } from "./print.ts";
import { createProgress, onInterrupt } from "./progress.ts";
import { obtainProject } from "./project.ts";
import { type Status, status } from "./status.ts";
import { chartCsv, writeTable } from "./tables.ts";
import { startThreads } from "./threads.ts";

export interface ChartVerbOptions {
  /** "microphone.diaphragm.across", or with its ends: "microphone.film.gap=10 um..200 um". */
  readonly x: string;
  readonly y: string;
  readonly count: number;
  readonly csv?: string;
  readonly svg?: string;
  readonly json: boolean;
  readonly set: readonly string[];
}

export async function chartPlane(file: string, options: ChartVerbOptions): Promise<Status> {
  const no = (outcome: Outcome<unknown> & { ok: false }, how: Status) => {
    answerProblems("chart", file, outcome.problems, options.json);
    return how;
  };
  const obtained = await obtainProject(file, options.set);
  if (!obtained.ok) return no(obtained, obtained.status);
  const [x, y] = [axisOf(obtained.project, options.x, "--x"), axisOf(obtained.project, options.y, "--y")];
  if (!x.ok || !y.ok) {
    const problems = [...(x.ok ? [] : x.problems), ...(y.ok ? [] : y.problems)];
    return no({ ok: false, problems }, status.wrongUse);
  }
  const plane = await compute(obtained.project, { x: x.value, y: y.value, count: options.count });
  if (!plane.ok) return no(plane, status.no);
  if (!(await writeTable("chart", file, options, () => chartCsv(plane.value)))) return status.wrongUse;
  if (options.svg !== undefined) {
    const { writePlane } = await import("./pictures.ts");
    const written = await writePlane(options.svg, plane.value);
    if (!written.ok) return no(written, status.wrongUse);
  }
  if (options.json) answerJson(plane.value);
  else if (options.csv !== "-") answerLine(chartLines(plane.value).join("\n"));
  return plane.value.x.values.length < options.count ? status.stopped : status.done;
}

/** "PATH" or "PATH=FROM..TO". */
function axisOf(project: Project, text: string, option: string): Outcome<ChartAxis> {
  const [path = "", range] = text.split("=", 2);
  if (range === undefined) return axisAround(project, path.trim());
  const place = findPath(path.trim());
  if (!place.ok) return place;
  const ends = range.split("..");
  if (ends.length !== 2)
    return refuse({
      code: "bad-range",
      path: [option],
      message: `Found "${range}"; needed: two ends, such as 10 um..200 um.`,
    });
  const [from, to] = ends.map((end) => readQuantity(end.trim(), place.value.kind, [option]));
  if (!from?.ok || !to?.ok)
    return refuse(...(from?.ok ? [] : (from?.problems ?? [])), ...(to?.ok ? [] : (to?.problems ?? [])));
  return answer({ path: place.value.text, from: from.value, to: to.value });
}

async function compute(
  { text }: Project,
  question: { readonly x: ChartAxis; readonly y: ChartAxis; readonly count: number },
): Promise<Outcome<ChartPlane>> {
  const { askers, close } = startThreads();
  const progress = createProgress("chart");
  const done = askers.map(() => 0);
  /** Coarse planes of each thread by their number of points: only equal ones fit together. */
  const soFar = askers.map(() => new Map<number, ChartPlane>());
  const off = onInterrupt(() => {
    for (const one of askers) one.stop("chart");
  });
  const replies = await Promise.all(
    askers.map((one, index) =>
      one.ask(
        "chart",
        "chart",
        { text, ...question, part: { index, of: askers.length } },
        {
          urgency: "batch",
          onStep: (step) => {
            done[index] = step.done;
            if (step.soFar !== undefined) soFar[index]!.set(step.soFar.least.length, step.soFar);
            progress.show(
              done.reduce((a, b) => a + b, 0),
              question.count ** 2,
            );
          },
        },
      ),
    ),
  );
  off();
  progress.end();
  close();
  const refused = replies.find((reply) => reply.kind === "refused");
  if (refused?.kind === "refused") return refuse(...refused.problems);
  const whole = replies.flatMap((reply) => (reply.kind === "answer" ? [reply.value] : []));
  const common = [...soFar[0]!.keys()].filter((size) => soFar.every((of) => of.has(size))).at(-1);
  const coarse = common === undefined ? [] : soFar.map((of) => of.get(common)!);
  const [first, ...others] = whole.length === replies.length ? whole : coarse;
  if (first === undefined)
    return refuse({ code: "stopped", path: [], message: "Stopped before the first coarse picture was there." });
  return answer(mergePlanes([first, ...others]));
}
