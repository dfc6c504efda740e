/** The chart that was begun last is kept in its thread: who asks for the same one sees at once what is there, and goes on with it. */
import { answer, type ChartOptions, type ChartPlane, chart, loadProject, type Outcome } from "../core/index.ts";
import type { Step } from "./protocol.ts";

export type ChartQuestion = { readonly text: string } & ChartOptions;

interface Started {
  readonly key: string;
  readonly work: Generator<Step<ChartPlane>, Outcome<ChartPlane>>;
  /** Steps with the pictures that were there so far. */
  readonly pictures: Step<ChartPlane>[];
  ended: Outcome<ChartPlane> | null;
}

let started: Started | null = null;

function begin({ text, ...options }: ChartQuestion): Started {
  const key = JSON.stringify([text, options]);
  if (started?.key === key) return started;
  const loaded = loadProject(text);
  const work = loaded.ok ? chart(loaded.value, options) : refused(loaded);
  started = { key, work, pictures: [], ended: null };
  return started;
}

// biome-ignore lint/correctness/useYield: there is nothing to say on the way
function* refused(outcome: Outcome<never>): Generator<Step<ChartPlane>, Outcome<ChartPlane>> {
  return outcome;
}

/** One step farther; null: it has ended. */
function further(of: Started): Step<ChartPlane> | null {
  const next = of.work.next();
  if (next.done) {
    of.ended = next.value;
    return null;
  }
  if (next.value.soFar !== undefined) of.pictures.push(next.value);
  return next.value;
}

/** From where it is to its end; the pictures that are there come first, so that every thread has shown as many. */
export function* continuedChart(question: ChartQuestion): Generator<Step<ChartPlane>, Outcome<ChartPlane>> {
  const mine = begin(question);
  yield* mine.pictures;
  for (;;) {
    if (mine.ended !== null) return mine.ended;
    const step = further(mine);
    if (step !== null) yield step;
  }
}

/** Pictures that are made ahead: the coarse one, and one on every fourth point, for which all is made ready. */
const ahead = 2;

/** Begins it and makes the coarse pictures. */
export function* chartAhead(question: ChartQuestion): Generator<Step<null>, Outcome<null>> {
  const mine = begin(question);
  while (mine.ended === null && mine.pictures.length < ahead) {
    const step = further(mine);
    if (step !== null) yield { done: step.done, of: step.of };
  }
  return mine.ended?.ok === false ? mine.ended : answer(null);
}
