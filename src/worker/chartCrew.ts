/**
 * A chart in all threads: each takes the next piece that waits, some points of a tile, so that none is idle while another has much
 * to do. A tile is made ready by one thread and given to the others. The plane does not depend on how many there are.
 */
import {
  areTiled,
  type ChartFrame,
  type ChartOptions,
  type ChartPlane,
  type ChartPoint,
  type JudgeBatch,
  planeOf,
} from "../core/index.ts";
import type { Asker } from "./asker.ts";
import type { Reply, Step, Urgency } from "./protocol.ts";
import type { WorkerQuestions } from "./tasks.ts";

type Crew = readonly Asker<WorkerQuestions>[];

export type ChartQuestion = { readonly text: string } & ChartOptions;

/** `pass`: the first one that needs it. */
type Piece =
  | { readonly kind: "ready"; readonly pass: 1; readonly tile: number }
  | { readonly kind: "points"; readonly pass: number; readonly tile: number; readonly places: readonly number[] };

/** What is there of a chart and what is still to do; it can be left and gone on with, by another crew as well. */
export interface ChartRun {
  readonly question: ChartQuestion;
  /** null: not asked yet. */
  frame: ChartFrame | null;
  readonly waiting: Piece[];
  readonly points: (ChartPoint | null)[];
  /** Points that each pass still lacks. */
  readonly lacking: number[];
  readonly batches: Map<number, JudgeBatch | null>;
  /** The plane of each pass that is complete. */
  readonly pictures: ChartPlane[];
  /** Rings when something has come back. */
  readonly bell: Bell;
}

/** Wakes all who wait. */
interface Bell {
  readonly heard: () => Promise<void>;
  readonly ring: () => void;
}

/** `before`: a run whose tiles are taken over where it asked for the same plane with another number of points. */
export const createChartRun = (question: ChartQuestion, before: ChartRun | null = null): ChartRun => ({
  question,
  frame: null,
  waiting: [],
  points: new Array<ChartPoint | null>(question.count ** 2).fill(null),
  lacking: [],
  batches: new Map(before !== null && sameTiles(question, before.question) ? before.batches : []),
  pictures: [],
  bell: createBell(),
});

const sameTiles = (one: ChartQuestion, other: ChartQuestion): boolean =>
  areTiled(one.count) &&
  areTiled(other.count) &&
  JSON.stringify({ ...one, count: 0 }) === JSON.stringify({ ...other, count: 0 });

/** Points of a piece: some hundredths of a second. */
const together = 20;

/**
 * While one piece is computed the next waits in the other channel, so that no thread waits for the page; none of the first picture,
 * which is there when the slowest thread has done its last point.
 */
const channels = ["chart", "chart-next"] as const;

export interface ChartCrewOptions {
  /** "batch" where absent. */
  readonly urgency?: Urgency;
  /** So many passes, coarse first; all where absent. */
  readonly passes?: number;
  /** How far it is, with the picture of the last pass that is complete. */
  readonly onStep?: (step: Step<ChartPlane>) => void;
}

/** Goes on with a chart, to its end or for some passes. Refused, superseded and stopped (`stopChart`) as the thread that says so. */
export async function chartInCrew(
  crew: Crew,
  run: ChartRun,
  options: ChartCrewOptions = {},
): Promise<Reply<ChartPlane>> {
  const { urgency = "batch", onStep = () => {} } = options;
  // The first one has most to do beside.
  const last = crew.at(-1);
  if (last === undefined) throw new Error("chartInCrew: no thread");
  if (run.frame === null) {
    const asked = await last.ask(channels[0], "chartFrame", run.question, { urgency });
    if (asked.kind !== "answer") return asked;
    if (run.frame === null) begin(run, asked.value);
  }
  const passes = Math.min(options.passes ?? run.lacking.length, run.lacking.length);
  const finished = () => run.pictures.length >= passes;
  const say = () => {
    const soFar = run.pictures.at(-1);
    const done = run.points.reduce((sum, point) => sum + (point === null ? 0 : 1), 0);
    onStep({ done, of: run.points.length, ...(soFar !== undefined && { soFar }) });
  };
  let odd: Exclude<Reply<unknown>, { kind: "answer" }> | null = null;
  /** One channel of a thread: piece after piece. `held`: tiles whose batch the thread has. */
  async function work(thread: Crew[number], channel: (typeof channels)[number], held: Set<number>): Promise<void> {
    while (odd === null && !finished()) {
      const piece = take(run, passes, channel);
      if (piece === null) {
        await run.bell.heard();
        continue;
      }
      const reply = await ask(run, piece, { thread, channel, urgency, held });
      if (reply.kind === "answer") {
        keep(run, piece, reply.value);
        // When every thread has its next piece: who hears it may stop them all, or ask anew.
        queueMicrotask(say);
      } else {
        run.waiting.unshift(piece);
        odd ??= reply;
      }
      run.bell.ring();
    }
  }
  say();
  const held = crew.map(() => new Set<number>());
  await Promise.all(channels.flatMap((channel) => crew.map((thread, i) => work(thread, channel, held[i]!))));
  return odd ?? { kind: "answer", id: 0, value: run.pictures[passes - 1]!, remarks: [] };
}

/** Its reply is "stopped". */
export function stopChart(crew: Crew): void {
  for (const thread of crew) for (const channel of channels) thread.stop(channel);
}

function begin(run: ChartRun, frame: ChartFrame): void {
  run.frame = frame;
  for (const [pass, { points: tiles }] of frame.passes.entries()) {
    run.lacking.push(tiles.reduce((sum, places) => sum + places.length, 0));
    if (pass === 1) {
      const wanted = tiles.map((_, tile) => tile).filter((tile) => !run.batches.has(tile));
      run.waiting.push(...wanted.map((tile): Piece => ({ kind: "ready", pass, tile })));
    }
    for (const [tile, places] of tiles.entries()) {
      const size = pass === 0 ? 1 : together;
      for (let i = 0; i < places.length; i += size)
        run.waiting.push({ kind: "points", pass, tile, places: places.slice(i, i + size) });
    }
  }
}

/** The next piece of so many passes for which all is there; null: none now. The first picture goes before all else. */
function take({ waiting, batches }: ChartRun, passes: number, channel: (typeof channels)[number]): Piece | null {
  const first = waiting.findIndex(({ pass }) => pass === 0);
  const at =
    first < 0
      ? waiting.findIndex(({ kind, pass, tile }) => pass < passes && (kind === "ready" || batches.has(tile)))
      : channel === channels[0]
        ? first
        : -1;
  return at < 0 ? null : (waiting.splice(at, 1)[0] ?? null);
}

function ask(
  { question, batches }: ChartRun,
  piece: Piece,
  by: {
    readonly thread: Crew[number];
    readonly channel: string;
    readonly urgency: Urgency;
    readonly held: Set<number>;
  },
): Promise<Reply<JudgeBatch | null | readonly ChartPoint[]>> {
  const { thread, channel, urgency, held } = by;
  const { tile } = piece;
  if (piece.kind === "ready") {
    held.add(tile);
    return thread.ask(channel, "chartReady", { question, tile }, { urgency });
  }
  const { pass, places } = piece;
  // The first picture waits for nothing.
  if (pass === 0) return thread.ask(channel, "chartPoints", { question, tile: null, places }, { urgency });
  const given = held.has(tile) ? {} : { batch: batches.get(tile) ?? null };
  held.add(tile);
  return thread.ask(channel, "chartPoints", { question, tile, places, ...given }, { urgency });
}

function keep(run: ChartRun, piece: Piece, value: JudgeBatch | null | readonly ChartPoint[]): void {
  const { frame, points, lacking, batches, pictures } = run;
  if (piece.kind === "ready") {
    batches.set(piece.tile, value as JudgeBatch | null);
    return;
  }
  for (const [i, place] of piece.places.entries()) points[place] = (value as readonly ChartPoint[])[i]!;
  lacking[piece.pass]! -= piece.places.length;
  while (lacking[pictures.length] === 0) pictures.push(planeOf(frame!, points, frame!.passes[pictures.length]!.stride));
}

function createBell(): Bell {
  let waiting: (() => void)[] = [];
  return {
    heard: () => new Promise((resolve) => waiting.push(resolve)),
    ring: () => {
      const all = waiting;
      waiting = [];
      for (const wake of all) wake();
    },
  };
}
