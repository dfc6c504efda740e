/** `glassdrum chart`: what the microphone would do over any two of its values. */
import {
  answer,
  axisAround,
  type ChartAxis,
  type ChartPlane,
  findPath,
  type Outcome,
  type Project,
  readQuantity,
  refuse,
} from "../core/index.ts";
import { chartLines } from "../words/en/chart.ts";
import { chartInCrew, createChartRun, stopChart } from "../worker/chartCrew.ts";
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
  const off = onInterrupt(() => stopChart(askers));
  const run = createChartRun({ text, ...question });
  const reply = await chartInCrew(askers, run, { onStep: ({ done, of }) => progress.show(done, of) });
  off();
  progress.end();
  close();
  if (reply.kind === "refused") return refuse(...reply.problems);
  const plane = reply.kind === "answer" ? reply.value : run.pictures.at(-1);
  if (plane === undefined)
    return refuse({ code: "stopped", path: [], message: "Stopped before the first coarse picture was there." });
  return answer(plane);
}
