/**
 * A spread in pieces over all cores. Each piece is a few specimens; the first thread gathers their rows, so that the page never
 * holds thousands of them, and is asked for what they say so far. A run that is stopped keeps what it has and can go on.
 */
import { type Accessor, batch, createEffect, createSignal, on, onCleanup } from "solid-js";
import type { Problem, Spread } from "../../core/index.ts";
import { useWork } from "../shell/work.ts";

export interface SpreadAsked {
  readonly text: string;
  /** Specimens of the yield, points a set for the indices, and where the random numbers start. */
  readonly count: number;
  readonly influence: number;
  readonly seed: number;
}

export interface SpreadRun {
  readonly spread: Accessor<Spread | null>;
  /** While it is computed and after a stop `spread` tells of the first specimens only. */
  readonly state: Accessor<"waiting" | "computing" | "stopped" | "current" | "refused">;
  /** Whether what is shown belongs to an earlier question. */
  readonly old: Accessor<boolean>;
  readonly problems: Accessor<readonly Problem[]>;
  readonly progress: Accessor<{ readonly done: number; readonly of: number }>;
  readonly stop: () => void;
  readonly goOn: () => void;
}

/** Specimens of one piece: some tenths of a second. */
const piece = 40;
/** Pieces after which what is there is shown: often at first. */
const looks = [1, 3, 8, 20, 50, 120, 250];

/** Finished runs of this page, by their question. */
const finished = new Map<string, Spread>();
const most = 12;
let runs = 0;

/** `wanted`: share of specimens that should pass; another one asks for what to buy anew, and for no specimen. */
export function createSpreadRun(question: () => SpreadAsked, wanted: Accessor<number>): SpreadRun {
  const work = useWork();
  const { crew } = work;
  const [home] = crew as readonly [(typeof crew)[number]];
  const [spread, setSpread] = createSignal<Spread | null>(null);
  const [of, setOf] = createSignal<string | null>(null);
  const [state, setState] = createSignal<ReturnType<SpreadRun["state"]>>("waiting");
  const [problems, setProblems] = createSignal<readonly Problem[]>([]);
  const [progress, setProgress] = createSignal({ done: 0, of: 0 });
  let run = "";
  let next = 0;
  let gathered = 0;
  let asked: SpreadAsked = question();
  let key = "";
  /** Pieces that were out when it was stopped: they are asked for again. */
  let again: number[] = [];
  const channel = (index: number) => `spread-${index}`;
  const parts = () => Math.max(1, Math.ceil((asked.count + asked.influence * 6) / piece));

  function show(found: Spread): void {
    batch(() => {
      setSpread(found);
      setOf(key);
    });
  }
  function begin(fresh: SpreadAsked, still: boolean): void {
    halt();
    runs += 1;
    [run, next, gathered, asked, key, again] = [`run ${runs}`, 0, 0, fresh, JSON.stringify(fresh), []];
    setProblems([]);
    setProgress({ done: 0, of: parts() });
    const known = finished.get(finishedKey());
    if (known === undefined) {
      // What was stopped stays so until somebody says go on.
      if (!still) goOn();
      return;
    }
    show(known);
    setState("current");
  }
  const finishedKey = () => `${wanted()} ${key}`;
  function halt(): void {
    for (const [i, thread] of crew.entries()) thread.stop(channel(i));
    home.stop("spread-look");
  }
  function goOn(): void {
    setState("computing");
    const mine = run;
    void Promise.all(crew.map((_, i) => labor(i, mine))).then(() => finish(mine));
  }
  const active = (mine: string) => mine === run && state() === "computing";

  async function labor(index: number, mine: string): Promise<void> {
    const thread = crew[index]!;
    while (active(mine)) {
      const part = again.shift() ?? (next < parts() ? next++ : null);
      if (part === null) return;
      const reply = await thread.ask(
        channel(index),
        "spreadPart",
        { ...asked, part, parts: parts() },
        { urgency: "batch" },
      );
      if (mine !== run) return;
      if (reply.kind === "refused") {
        setProblems(reply.problems);
        setState("refused");
        return halt();
      }
      if (reply.kind !== "answer") return void again.push(part);
      await home.ask(`spread-gather-${part}`, "spreadGather", { run, part: reply.value }, { urgency: "refine" });
      if (mine !== run) return;
      gathered += 1;
      setProgress({ done: gathered, of: parts() });
      if (looks.includes(gathered) && gathered < parts()) void look(mine);
    }
  }
  /** What the specimens that are there say. */
  async function look(mine: string): Promise<void> {
    const reply = await home.ask("spread-look", "spreadJoin", { ...asked, run, partial: true }, { urgency: "refine" });
    // The first specimens may not be among them yet: then there is nothing to say.
    if (mine === run && reply.kind === "answer") show(reply.value);
  }
  async function finish(mine: string): Promise<void> {
    if (!active(mine) || gathered < parts()) return;
    const share = wanted();
    const reply = await home.ask("spread-look", "spreadJoin", { ...asked, run, wanted: share }, { urgency: "refine" });
    if (mine !== run || share !== wanted()) return;
    if (reply.kind === "answer") {
      for (const oldest of finished.keys()) if (finished.size >= most) finished.delete(oldest);
      finished.set(finishedKey(), reply.value);
      show(reply.value);
      setState("current");
    }
    if (reply.kind === "refused") {
      setProblems(reply.problems);
      setState("refused");
    }
  }
  createEffect(
    on(
      () => (work.still() === null || work.held() ? null : JSON.stringify(question())),
      (text) => {
        if (text !== null && text !== key) begin(JSON.parse(text) as SpreadAsked, state() === "stopped");
      },
    ),
  );
  createEffect(
    on(
      wanted,
      () => {
        const known = finished.get(finishedKey());
        if (known !== undefined) return show(known);
        if (state() !== "current") return;
        // Rows that another run has taken the place of are made anew.
        if (gathered < parts()) return begin(asked, false);
        setState("computing");
        void finish(run);
      },
      { defer: true },
    ),
  );
  onCleanup(() => {
    run = "";
    halt();
  });
  return {
    spread,
    state,
    old: () => spread() !== null && of() !== key && state() !== "waiting",
    problems,
    progress,
    stop: () => {
      setState("stopped");
      halt();
      if (gathered > 0 && gathered < parts()) void look(run);
    },
    goOn,
  };
}
