/** What is always asked of the worker: the present project first, then kept designs and damping against gap, each anew when it changes. */
import { type Accessor, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import {
  type DampingCurve,
  findPath,
  type Prediction,
  type Problem,
  type Project,
  projectText,
  type Watched,
} from "../../core/index.ts";
import { type Asker, asker } from "../../worker/asker.ts";
import { startBrowserThread } from "../../worker/browserPort.ts";
import type { HeldValue } from "../../worker/firstTasks.ts";
import type { Reply } from "../../worker/protocol.ts";
import type { WorkerQuestions } from "../../worker/tasks.ts";
import { applied, keptDesigns } from "../kept/keptDesigns.ts";
import { designParts, partText } from "./partText.ts";
import { rehearsals } from "./rehearsals.ts";
import { openPage } from "./route.ts";

export interface KeptAnswer {
  readonly name: string;
  /** The project as that design would have it; null: not possible. */
  readonly project: Project | null;
  /** null: not yet, or not possible. */
  readonly prediction: Prediction | null;
  readonly problems: readonly Problem[];
}

/** Damping against gap, as far as it is known, over a range that stands still while the gap is dragged. */
export interface DampingAnswer {
  readonly curve: DampingCurve;
  readonly from: number;
  readonly to: number;
  readonly done: number;
  readonly of: number;
}

export interface Questions {
  /** Asks for a project. Under a hand the question that is computed is answered first: none starves. */
  readonly ask: (id: number, of: Asked) => void;
  /** A hand is about to take hold of a value: what its answers need is made ready. */
  readonly expectHand: (path: string) => Promise<void>;
  readonly kept: Accessor<readonly KeptAnswer[]>;
  readonly damping: Accessor<DampingAnswer | null>;
  /** Whether somebody looks at damping against gap: else it is not asked for. */
  readonly lookAtDamping: (looked: boolean) => void;
  /** The thread for what takes long: pages ask it through `taskAnswer`. */
  readonly worker: Asker<WorkerQuestions>;
  /** Threads for what falls into pieces, one a core; the first is `worker`. Each starts when it is first asked. */
  readonly crew: readonly Asker<WorkerQuestions>[];
  /** The project when no hand holds it; null before the first answer, which has the machine for itself. */
  readonly still: Accessor<Project | null>;
}

/** A project to be answered; `hand`: it is another one with the value that a hand holds [SI]. */
export interface Asked {
  readonly project: Project;
  readonly hand: { readonly base: Project; readonly held: HeldValue } | null;
}

interface Ends {
  readonly project: Accessor<Project>;
  readonly held: Accessor<boolean>;
  readonly answered: (id: number, of: Project, prediction: Prediction) => void;
  /** Under a hand, where only what moves is asked for. */
  readonly watched: (id: number, of: Project, watched: Watched) => void;
  readonly refused: (id: number, of: Project, problems: readonly Problem[]) => void;
}

export function createQuestions(ends: Ends): Questions {
  const open = (): Asker<WorkerQuestions> => asker<WorkerQuestions>(startBrowserThread);
  // A hand has a thread that answers nobody else, the exact answer one of its own, and so has what takes long.
  const [hand, present, background] = [open(), open(), open()];
  const crew = [background, ...Array.from({ length: crewSize() - 1 }, open)];
  onCleanup(() => {
    for (const worker of [hand, present, ...crew]) worker.close();
  });
  const [settled, setSettled] = createSignal(false);
  const pump = presentPump(hand, present, {
    ...ends,
    answered: (id, of, prediction) => {
      ends.answered(id, of, prediction);
      setSettled(true);
      setAnswered(of);
    },
    // What a file asks in vain others may answer: a plane of designs shows where one would stand.
    refused: (id, of, problems) => {
      ends.refused(id, of, problems);
      setSettled(true);
    },
  });
  /** A hand will ask for quick answers: what they need of this shape is made beside, and given to the thread that it will ask. */
  async function prepareAhead(of: Project): Promise<void> {
    const made = await background.ask("ahead", "shapeAhead", { text: projectText(of) }, { urgency: "refine" });
    if (made.kind === "answer") await hand.ask("shape", "takeShape", made.value, { urgency: "drag" });
    await rehearse(of, "microphone.film.gap");
    // The last thread starts before a page has much for it.
    void crew.at(-1)?.ask("wake", "wake", null, { urgency: "ahead" });
  }
  const [answered, setAnswered] = createSignal<Project | null>(null);
  let prepared: Project | null = null;
  createEffect(() => {
    const of = answered();
    // Other pages have questions of their own.
    if (of === null || openPage() !== "bench") return;
    if (of === prepared) void rehearse(of, "microphone.film.gap");
    else void prepareAhead(of);
    prepared = of;
  });
  const rehearse = rehearsals(hand, ends.held, () => openPage() !== "bench");
  const passages = passagesFor(hand, background);
  /** The project at rest: what is asked beside the present answer does not follow each pixel of a drag. */
  const still = createMemo<Project>((before) => (ends.held() ? before : ends.project()), ends.project());
  // The first answer has the machine for itself.
  const later = createMemo<Project | null>(() => (settled() ? still() : null));
  const [looked, setLooked] = createSignal(false);
  const lookedAt = createMemo<Project | null>(() => (looked() ? later() : null));
  return {
    ask: (id, of) => {
      if (of.hand !== null) passages.follow(of.project, of.hand.held);
      pump(id, of);
    },
    expectHand: async (path) => {
      if (!settled() || ends.held()) return;
      await passages.make(ends.project(), path);
      await rehearse(ends.project(), path);
    },
    // The thread of the exact answer is warm for more of its kind, and has little to do.
    kept: keptAnswers(present, later),
    damping: dampingAnswer(background, lookedAt),
    lookAtDamping: setLooked,
    worker: background,
    crew,
    still: later,
  };
}

/** A span of shapes is made anew where a hand has come so near to its end, and has moved so far from its middle, as a ratio. */
const nearEnd = 1.05;
const farFrom = 1.15;

/** Spans the shapes along the value that a hand holds or is about to hold. */
function passagesFor(hand: Asker<WorkerQuestions>, background: Asker<WorkerQuestions>) {
  /** The last one that was asked for: null for its reach until it is there, or where there is none. */
  let last: { path: string; text: string; middle: number | null; reach: { low: number; high: number } | null } | null =
    null;
  async function make(project: Project, path: string, middle: number | null = null): Promise<void> {
    const text = projectText(project);
    if (last?.path === path && last.text === text) return;
    const asked = { path, text, middle, reach: null };
    last = asked;
    const made = await background.ask("passage", "passageAhead", { text, path }, { urgency: "refine" });
    if (made.kind !== "answer" || made.value === null || last !== asked) return;
    const { low, high } = made.value;
    last = { ...asked, middle: middle ?? Math.sqrt(low * high), reach: { low, high } };
    await hand.ask("passage", "takePassage", made.value, { urgency: "drag" });
  }
  return {
    make: (project: Project, path: string) => make(project, path),
    /** On the way: the hand may leave what was spanned. */
    follow: (project: Project, { path, value }: HeldValue) => {
      if (last?.path !== path || last.reach === null || last.middle === null) return;
      const { middle, reach } = last;
      const leaves = value < reach.low * nearEnd || value > reach.high / nearEnd;
      if (leaves && (value > middle * farFrom || value < middle / farFrom)) void make(project, path, value);
    },
  };
}

/** Threads beside the page's own: one a core, eight at most. */
const crewSize = (): number => Math.max(1, Math.min(8, navigator.hardwareConcurrency || 2));

/** While one question of a drag is computed the newest waits in the other channel, so that the thread goes on without asking back. */
const channels = ["present", "newest"] as const;

/** Exact answers that are remembered; one is some 100 kB. */
const mostKnown = 16;

interface Out {
  readonly channel: (typeof channels)[number];
  readonly id: number;
}

function presentPump(
  hand: Asker<WorkerQuestions>,
  present: Asker<WorkerQuestions>,
  { held, answered, watched, refused }: Ends,
): (id: number, of: Asked) => void {
  let computed: Out | null = null;
  let waiting: Out | null = null;
  let latest = 0;

  /** Whether a reply still counts: none does that another question has overtaken. */
  function counts(id: number, { kind }: Reply<unknown>): boolean {
    if ((kind !== "answer" && kind !== "refused") || id < latest) return false;
    latest = id;
    return true;
  }

  async function watch({ channel, id }: Out, { project, hand: by }: Asked): Promise<void> {
    const input = { text: projectText(by?.base ?? project), held: by?.held ?? null };
    const reply = await hand.ask(channel, "watch", input, { urgency: "drag" });
    if (!counts(id, reply)) return;
    computed = waiting;
    waiting = null;
    if (reply.kind === "answer") watched(id, project, reply.value);
    if (reply.kind === "refused") refused(id, project, reply.problems);
  }

  /** Exact answers by the project's text, the oldest first: undo and redo show them at once. */
  const known = new Map<string, Prediction>();

  async function predict(id: number, { project }: Asked): Promise<void> {
    const text = projectText(project);
    const again = known.get(text);
    if (again !== undefined) {
      present.stop("present");
      latest = id;
      return answered(id, project, again);
    }
    const reply = await present.ask("present", "predict", { text }, { urgency: "refine" });
    if (reply.kind === "answer") {
      for (const oldest of known.keys()) if (known.size >= mostKnown) known.delete(oldest);
      known.set(text, reply.value);
    }
    if (!counts(id, reply)) return;
    if (reply.kind === "answer") answered(id, project, reply.value);
    if (reply.kind === "refused") refused(id, project, reply.problems);
  }

  return (id, of) => {
    const [first, second] = channels;
    if (!held()) {
      // At rest nothing older is waited for.
      for (const channel of channels) hand.stop(channel);
      computed = null;
      waiting = null;
      void predict(id, of);
    } else if (computed === null) {
      computed = { channel: first, id };
      void watch(computed, of);
    } else {
      waiting = { channel: computed.channel === first ? second : first, id };
      void watch(waiting, of);
    }
  };
}

/** Kept designs in turn; one that is known already is not asked for again. */
function keptAnswers(worker: Asker<WorkerQuestions>, still: Accessor<Project | null>): Accessor<readonly KeptAnswer[]> {
  const known = new Map<string, KeptAnswer>();
  const [kept, setKept] = createSignal<readonly KeptAnswer[]>([]);
  createEffect(
    on(still, async (project) => {
      if (project === null) return;
      setKept(kept().map((one) => ({ ...one, problems: [] })));
      const found: KeptAnswer[] = [];
      for (const design of keptDesigns(project)) {
        const { name } = design;
        const changed = applied(project, design);
        if (!changed.ok) {
          found.push({ name, project: null, prediction: null, problems: changed.problems });
          continue;
        }
        const text = partText(changed.value, designParts);
        let one = known.get(text);
        if (one === undefined) {
          const reply = await worker.ask("kept", "predict", { text }, { urgency: "batch" });
          if ((reply.kind !== "answer" && reply.kind !== "refused") || still() !== project) return;
          one =
            reply.kind === "answer"
              ? { name, project: changed.value, prediction: reply.value, problems: [] }
              : { name, project: changed.value, prediction: null, problems: reply.problems };
          if (known.size > 50) known.clear();
          known.set(text, one);
        }
        found.push({ ...one, name });
      }
      if (still() === project) setKept(found);
    }),
  );
  return kept;
}

const gapPath = "microphone.film.gap";
const gapCount = 33;

function dampingAnswer(
  worker: Asker<WorkerQuestions>,
  still: Accessor<Project | null>,
): Accessor<DampingAnswer | null> {
  const [damping, setDamping] = createSignal<DampingAnswer | null>(null);
  let whole: Project | null = null;
  createEffect(
    on(still, async (project) => {
      if (project === null) return worker.stop("damping");
      if (project === whole) return;
      const found = findPath(gapPath);
      const gap = found.ok ? found.value.read(project) : found;
      if (!gap.ok || !project.file.microphone?.film) {
        worker.stop("damping");
        setDamping(null);
        return;
      }
      const [from, to] = [halfDecade(gap.value / 6, Math.floor), halfDecade(gap.value * 6, Math.ceil)];
      const show = (curve: DampingCurve, done: number, of: number) => setDamping({ curve, from, to, done, of });
      const reply = await worker.ask(
        "damping",
        "dampingAgainstGap",
        { text: projectText(project), from, to, count: gapCount },
        {
          urgency: "batch",
          onStep: ({ done, of, soFar }) => {
            if (soFar !== undefined && (done % 8 === 0 || done === of)) show(soFar, done, of);
          },
        },
      );
      if (reply.kind === "answer") {
        whole = project;
        show(reply.value, 1, 1);
      }
      if (reply.kind === "refused") setDamping(null);
    }),
  );
  return damping;
}

/** Ends of an axis that need not move with each change: 1 or 3 times a power of ten. */
const halfDecade = (value: number, round: (value: number) => number): number => {
  const power = round(2 * Math.log10(value)) / 2;
  return Number.isInteger(power) ? 10 ** power : 3 * 10 ** Math.floor(power);
};
