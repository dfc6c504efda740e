/** `glassdrum spread`: what fabrication and site do to a design, on all cores, whole or in parts for a cluster. */
import { readFile } from "node:fs/promises";
import {
  answer,
  joinSpread,
  type Outcome,
  type Problem,
  type Project,
  planSpread,
  refuse,
  type Spread,
  type SpreadPart,
} from "../core/index.ts";
import { reasonOf, systemCode } from "../words/en/fileErrors.ts";
import { spreadLines } from "../words/en/spread.ts";
import { answerJson, answerLine, answerProblems } from "./print.ts";
import { createProgress, onInterrupt } from "./progress.ts";
import { obtainProject } from "./project.ts";
import { type Status, status } from "./status.ts";
import { spreadCsv, writeTable } from "./tables.ts";
import { startThreads } from "./threads.ts";

export interface SpreadVerbOptions {
  readonly count: number;
  readonly influence: number;
  readonly seed: number;
  readonly wanted: number;
  /** "3/16" */
  readonly part?: string;
  /** Files with parts. */
  readonly join?: readonly string[];
  readonly csv?: string;
  readonly svg?: string;
  readonly json: boolean;
  readonly set: readonly string[];
}

export async function spreadDesign(file: string, options: SpreadVerbOptions): Promise<Status> {
  const no = (outcome: Outcome<unknown> & { ok: false }, how: Status) => {
    answerProblems("spread", file, outcome.problems, options.json);
    return how;
  };
  const part = partOf(options.part);
  if (!part.ok) return no(part, status.wrongUse);
  const obtained = await obtainProject(file, options.set);
  if (!obtained.ok) return no(obtained, obtained.status);
  const { project } = obtained;
  if (options.join !== undefined) {
    const parts = await readParts(options.join);
    if (!parts.ok) return no(parts, status.wrongUse);
    const [first] = parts.value;
    return finish(joinSpread(project, parts.value, { wanted: options.wanted, ...(first && { seed: first.seed }) }));
  }
  const plan = planSpread(project, options);
  if (!plan.ok) return no(plan, status.no);
  const computed = await compute(project, options, { total: plan.value.total, only: part.value });
  if (!computed.ok) return no(computed, status.no);
  const [made] = computed.value.parts;
  const cut = computed.value.stopped && (made === undefined || part.value !== null);
  if (made === undefined || cut) {
    const path = part.value === null ? [] : ["--part"];
    const message =
      part.value === null
        ? "Stopped before the first specimens were there."
        : "Stopped before the part was whole; a part of a part joins with nothing.";
    return no({ ok: false, problems: [{ code: "stopped", path, message }] }, status.stopped);
  }
  if (part.value !== null) {
    // A part is for the program that joins: it is JSON in any case.
    answerJson({ ...made, rows: computed.value.parts.flatMap(({ rows }) => rows) });
    return status.done;
  }
  const question = { ...options, partial: computed.value.stopped };
  return finish(joinSpread(project, computed.value.parts, question));

  async function finish(spread: Outcome<Spread>): Promise<Status> {
    if (!spread.ok) return no(spread, status.no);
    if (!(await writeTable("spread", file, options, () => spreadCsv(spread.value)))) return status.wrongUse;
    if (options.svg !== undefined) {
      const { writeBand } = await import("./pictures.ts");
      const written = await writeBand(options.svg, spread.value, project);
      if (!written.ok) return no(written, status.wrongUse);
    }
    if (options.json) answerJson(spread.value);
    else if (options.csv !== "-") answerLine(spreadLines(spread.value, spread.remarks).join("\n"));
    return spread.remarks.some(({ code }) => code === "stopped") ? status.stopped : status.done;
  }
}

/** Specimens of one piece: so few that a stop loses little. */
const piece = 64;

/**
 * The run, or one part of it, in pieces: each thread takes the next one that waits. After Ctrl-C those that are done count; a part
 * counts whole only.
 */
async function compute(
  { text }: Project,
  options: SpreadVerbOptions,
  { total, only }: { readonly total: number; readonly only: { readonly index: number; readonly of: number } | null },
): Promise<Outcome<{ readonly parts: readonly SpreadPart[]; readonly stopped: boolean }>> {
  const { count, influence, seed } = options;
  const { index, of } = only ?? { index: 0, of: 1 };
  const pieces = Math.max(1, Math.ceil(total / of / piece));
  const { askers, close } = startThreads();
  const progress = createProgress("spread");
  const parts: SpreadPart[] = [];
  const done = new Array<number>(pieces).fill(0);
  let [next, stopped] = [0, false];
  let failed: readonly Problem[] | null = null;
  const off = onInterrupt(() => {
    stopped = true;
    for (const one of askers) one.stop("spread");
  });
  await Promise.all(
    askers.map(async (one) => {
      while (next < pieces && !stopped && failed === null) {
        const at = next++;
        const onStep = (step: { readonly done: number }) => {
          done[at] = step.done;
          progress.show(
            done.reduce((a, b) => a + b, 0),
            total / of,
          );
        };
        const input = { text, count, influence, seed, part: index * pieces + at, parts: of * pieces };
        const reply = await one.ask("spread", "spreadPart", input, { urgency: "batch", onStep });
        if (reply.kind === "answer") parts.push(reply.value);
        else if (reply.kind === "refused") failed = reply.problems;
      }
    }),
  );
  off();
  progress.end();
  close();
  return failed !== null
    ? refuse(...(failed as readonly Problem[]))
    : answer({ parts: parts.sort((a, b) => a.from - b.from), stopped });
}

function partOf(text: string | undefined): Outcome<{ readonly index: number; readonly of: number } | null> {
  if (text === undefined) return answer(null);
  const [, first, second] = /^(\d+)\/(\d+)$/.exec(text) ?? [];
  const [index, of] = [Number(first), Number(second)];
  if (index >= 1 && index <= of) return answer({ index: index - 1, of });
  return refuse({ code: "bad-part", path: ["--part"], message: `Found "${text}"; needed: a part such as 3/16.` });
}

async function readParts(files: readonly string[]): Promise<Outcome<readonly SpreadPart[]>> {
  const parts: SpreadPart[] = [];
  for (const name of files) {
    try {
      const part = JSON.parse(await readFile(name, "utf8")) as SpreadPart;
      if (part.kind !== "glassdrum-spread-part" || !Array.isArray(part.rows))
        throw new TypeError("it is no part of a spread");
      parts.push(part);
    } catch (error) {
      const why =
        error instanceof SyntaxError || error instanceof TypeError
          ? error.message
          : systemCode(error) === "ENOENT"
            ? "there is no such file"
            : reasonOf(error);
      return refuse({ code: "part-not-readable", path: [name], message: `${name} can't be used: ${why}.` });
    }
  }
  return answer(parts);
}
