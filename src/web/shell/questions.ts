/** What is always asked of the worker: the present project first, then kept designs and damping against gap, each anew when it changes. */
import { type Accessor, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import {
  type DampingCurve,
  findPath,
  type Prediction,
  type Problem,
  type Project,
  projectText,
} from "../../core/index.ts";
import { type Asker, asker } from "../../worker/asker.ts";
import { startBrowserThread } from "../../worker/browserPort.ts";
import type { WorkerQuestions } from "../../worker/tasks.ts";
import { applied, keptDesigns } from "../bench/keptDesigns.ts";
import { shapeOf } from "../drawing/shapeOf.ts";

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
  /** Asks for the project as it stands. While one question of a drag is out, the next waits for its answer: none starves. */
  readonly ask: (id: number) => void;
  readonly kept: Accessor<readonly KeptAnswer[]>;
  readonly damping: Accessor<DampingAnswer | null>;
  /** Whether somebody looks at damping against gap: else it is not asked for. */
  readonly lookAtDamping: (looked: boolean) => void;
  /** Whether a hand is near what it could take hold of. */
  readonly comeNear: (near: boolean) => void;
  /** The thread for what takes long: pages ask it through `taskAnswer`. */
  readonly worker: Asker<WorkerQuestions>;
  /** The project when no hand holds it; null before the first answer, which has the machine for itself. */
  readonly still: Accessor<Project | null>;
}

interface Ends {
  readonly project: Accessor<Project>;
  readonly held: Accessor<boolean>;
  readonly answered: (id: number, of: Project, prediction: Prediction, atRest: boolean) => void;
  readonly refused: (of: Project, problems: readonly Problem[]) => void;
}

export function createQuestions(ends: Ends): Questions {
  const worker: Asker<WorkerQuestions> = asker<WorkerQuestions>(startBrowserThread);
  // What takes long has a thread of its own: a hand never waits for it.
  const background: Asker<WorkerQuestions> = asker<WorkerQuestions>(startBrowserThread);
  onCleanup(() => {
    worker.close();
    background.close();
  });
  const [settled, setSettled] = createSignal(false);
  let idle = 0;
  let near = false;
  /** The project that was answered exactly, and the one that quick answers are prepared for. */
  let known: Project | null = null;
  let warmed: Project | null = null;
  /** A hand that comes near will ask for quick answers: what they need of this shape is made while nothing else is asked. */
  function warm(): void {
    clearTimeout(idle);
    idle = window.setTimeout(() => {
      const project = ends.project();
      if (!near || ends.held() || project !== known || project === warmed) return;
      warmed = project;
      void worker.ask("warm", "predict", { text: projectText(project), manner: "quick" }, { urgency: "batch" });
    }, warmAfter);
  }
  const pump = presentPump(worker, {
    ...ends,
    answered: (id, of, prediction, atRest) => {
      ends.answered(id, of, prediction, atRest);
      if (!atRest) return;
      setSettled(true);
      known = of;
      warm();
    },
  });
  /** The project at rest: what is asked beside the present answer does not follow each pixel of a drag. */
  const still = createMemo<Project>((before) => (ends.held() ? before : ends.project()), ends.project());
  // The first answer has the machine for itself.
  const later = createMemo<Project | null>(() => (settled() ? still() : null));
  const [looked, setLooked] = createSignal(false);
  const lookedAt = createMemo<Project | null>(() => (looked() ? later() : null));
  return {
    ask: pump,
    kept: keptAnswers(background, later),
    damping: dampingAnswer(background, lookedAt),
    lookAtDamping: setLooked,
    worker: background,
    still: later,
    comeNear: (hand) => {
      near = hand;
      warm();
    },
  };
}

/** Rest before the next drag is prepared for [ms]. */
const warmAfter = 60;

function presentPump(worker: Asker<WorkerQuestions>, { project, held, answered, refused }: Ends): (id: number) => void {
  let out: number | null = null;
  let next: number | null = null;
  let latest = 0;
  let rested: Project | null = null;

  async function send(id: number): Promise<void> {
    const asked = project();
    const dragged = held();
    out = id;
    const passing = dragged && rested !== null && !sameSides(asked, rested);
    const input = { text: projectText(asked), manner: dragged ? ("quick" as const) : ("exact" as const), passing };
    const reply = await worker.ask("present", "predict", input, { urgency: dragged ? "drag" : "refine" });
    // Another question has taken its place: this answer came too late to be shown.
    if ((reply.kind !== "answer" && reply.kind !== "refused") || out !== id || id < latest) return;
    out = null;
    latest = id;
    if (!dragged) rested = asked;
    if (reply.kind === "answer") answered(id, asked, reply.value, !dragged);
    else refused(asked, reply.problems);
    if (next !== null) {
      const waiting = next;
      next = null;
      void send(waiting);
    }
  }

  return (id) => {
    if (held() && out !== null) next = id;
    else {
      next = null;
      void send(id);
    }
  };
}

/** Other sides are another shape for the engine; a gap, a thickness or a guide is not. */
function sameSides(a: Project, b: Project): boolean {
  const [one, other] = [shapeOf(a), shapeOf(b)];
  return one.across === other.across && one.along === other.along;
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
        const text = projectText(changed.value);
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
