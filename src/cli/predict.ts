/** `glassdrum predict`: what the microphone of a project does. */
import { promises } from "node:fs";
import { resolve } from "node:path";
import {
  answer,
  describe,
  type Limits,
  limits,
  type Outcome,
  type Prediction,
  type Project,
  predict,
  refuse,
  sensitivities,
  withSensitivities,
} from "../core/index.ts";
import { reasonOf } from "../words/en/fileErrors.ts";
import { limitsLines } from "../words/en/limits.ts";
import { predictLines } from "../words/en/predict.ts";
import { sensitivityLines } from "../words/en/sensitivities.ts";
import { readFrequencies } from "./frequencies.ts";
import { answerJson, answerLine, answerProblems, answerText, sayLine } from "./print.ts";
import { obtainProject } from "./project.ts";
import { responseCsv } from "./responseCsv.ts";
import { compileFully, compileLightly } from "./shortRun.ts";
import { type Status, status } from "./status.ts";

export interface PredictOptions {
  readonly at?: string;
  readonly csv?: string;
  readonly sensitive?: boolean;
  readonly limits?: boolean;
  readonly json: boolean;
  readonly set: readonly string[];
}

export async function predictProject(file: string, options: PredictOptions): Promise<Status> {
  const no = (outcome: Outcome<unknown> & { ok: false }, how: Status) => {
    answerProblems("predict", file, outcome.problems, options.json);
    return how;
  };
  const asked = options.at === undefined ? answer(null) : readFrequencies(options.at);
  if (!asked.ok) return no(asked, status.wrongUse);
  const target = csvTarget(file, options);
  if (!target.ok) return no(target, status.wrongUse);
  const obtained = await obtainProject(file, options.set);
  if (!obtained.ok) return no(obtained, obtained.status);
  compileLightly();
  const predicted = predict(obtained.project, asked.value === null ? {} : { frequencies: asked.value });
  if (!predicted.ok) return no(predicted, status.no);
  compileFully();
  const csv = await writeCsv(target.value, predicted.value);
  if (!csv.ok) return no(csv, status.wrongUse);
  const cards = options.sensitive === true ? cardsOf(obtained.project, predicted.value) : answer(predicted.value.cards);
  if (!cards.ok) return no(cards, status.no);
  const all = options.limits === true ? limits(obtained.project) : null;
  if (all && !all.ok) return no(all, status.no);
  show(obtained.project, { ...predicted.value, cards: cards.value }, all?.value ?? null, options);
  const mustFails = predicted.value.verdict.some(({ must, met }) => must && met === false);
  return mustFails ? status.no : status.done;
}

/** The cards with what their numbers depend on most. */
function cardsOf(project: Project, { cards }: Prediction): Outcome<Prediction["cards"]> {
  const work = sensitivities(project);
  let step = work.next();
  while (step.done !== true) step = work.next();
  return step.value.ok ? answer(withSensitivities(cards, step.value.value)) : step.value;
}

function show(
  project: Project,
  prediction: Prediction,
  all: Limits | null,
  { at, csv, json, sensitive }: PredictOptions,
): void {
  if (json) answerJson(all ? { ...prediction, limits: all } : prediction);
  else if (csv === "-") answerText(responseCsv(prediction.response));
  else {
    answerLine(inWords(project, prediction, at !== undefined));
    if (sensitive === true) answerLine(["", ...sensitivityLines(prediction.cards)].join("\n"));
    if (all) answerLine(["", ...limitsLines(all)].join("\n"));
  }
  if (csv !== undefined && csv !== "-") sayLine(`Wrote ${csv}.`);
}

function inWords(project: Project, prediction: Prediction, listed: boolean): string {
  const described = describe(project);
  if (!described.ok) throw new Error("predict answered for a project that describes no microphone");
  const title = project.file.title ?? "A microphone without a title";
  return predictLines({ title, microphone: described.value, prediction, listed }).join("\n");
}

/** Where the table goes; null: nowhere. The project itself is never written over. */
function csvTarget(file: string, { csv, json }: PredictOptions): Outcome<string | null> {
  if (csv === undefined) return answer(null);
  if (csv === "-" && json)
    return refuse({
      code: "two-answers",
      path: ["--csv"],
      message: "Both --json and --csv - write to standard output; name a file for one of them.",
    });
  if (csv === "" || resolve(csv) === resolve(file))
    return refuse({
      code: "csv-target",
      path: ["--csv"],
      message: `Found "${csv}"; needed: a file for the table, other than the project.`,
    });
  return answer(csv === "-" ? null : csv);
}

async function writeCsv(target: string | null, { response }: Prediction): Promise<Outcome<null>> {
  if (target === null) return answer(null);
  try {
    await promises.writeFile(target, responseCsv(response));
    return answer(null);
  } catch (error) {
    return refuse({
      code: "csv-not-written",
      path: ["--csv"],
      message: `${target} can't be written: ${reasonOf(error)}.`,
    });
  }
}
