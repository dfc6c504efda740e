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
import type { Reply } from "../../worker/protocol.ts";
import type { WorkerQuestions } from "../../worker/tasks.ts";
import { applied, keptDesigns } from "../kept/keptDesigns.ts";

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
  /** Asks for the project as it stands. Under a hand the question that is computed is answered first: none starves. */
  readonly ask: (id: number) => void;
  readonly kept: Accessor<readonly KeptAnswer[]>;
  readonly damping: Accessor<DampingAnswer | null>;
  /** Whether somebody looks at damping against gap: else it is not asked for. */
  readonly lookAtDamping: (looked: boolean) => void;
  /** The thread for what takes long: pages ask it through `taskAnswer`. */
  readonly worker: Asker<WorkerQuestions>;
  /** The project when no hand holds it; null before the first answer, which has the machine for itself. */
  readonly still: Accessor<Project | null>;
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
  const worker: Asker<WorkerQuestions> = asker<WorkerQuestions>(startBrowserThread);
  // What takes long has a thread of its own: a hand never waits for it.
  const background: Asker<WorkerQuestions> = asker<WorkerQuestions>(startBrowserThread);
  onCleanup(() => {
    worker.close();
    background.close();
  });
  const [settled, setSettled] = createSignal(false);
  const pump = presentPump(worker, {
    ...ends,
    answered: (id, of, prediction) => {
      ends.answered(id, of, prediction);
      setSettled(true);
      void prepareAhead(of);
    },
  });
  /** A hand will ask for quick answers: what they need of this shape is made beside, and given to the thread that it will ask. */
  async function prepareAhead(of: Project): Promise<void> {
    const made = await background.ask("ahead", "shapeAhead", { text: projectText(of) }, { urgency: "refine" });
    if (made.kind === "answer") await worker.ask("ahead", "takeShape", made.value, { urgency: "batch" });
  }
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
  };
}

/** While one question of a drag is computed the newest waits in the other channel, so that the thread goes on without asking back. */
const channels = ["present", "newest"] as const;

interface Out {
  readonly channel: (typeof channels)[number];
  readonly id: number;
}

function presentPump(
  worker: Asker<WorkerQuestions>,
  { project, held, answered, watched, refused }: Ends,
): (id: number) => void {
  let computed: Out | null = null;
  let waiting: Out | null = null;
  let latest = 0;

  /** Whether a reply still counts: none does that another question has overtaken. */
  function counts(id: number, { kind }: Reply<unknown>): boolean {
    if ((kind !== "answer" && kind !== "refused") || id < latest) return false;
    latest = id;
    computed = waiting;
    waiting = null;
    return true;
  }

  async function send({ channel, id }: Out): Promise<void> {
    const asked = project();
    const text = projectText(asked);
    if (held()) {
      const reply = await worker.ask(channel, "watch", { text }, { urgency: "drag" });
      if (!counts(id, reply)) return;
      if (reply.kind === "answer") watched(id, asked, reply.value);
      if (reply.kind === "refused") refused(id, asked, reply.problems);
    } else {
      const reply = await worker.ask(channel, "predict", { text }, { urgency: "refine" });
      if (!counts(id, reply)) return;
      if (reply.kind === "answer") answered(id, asked, reply.value);
      if (reply.kind === "refused") refused(id, asked, reply.problems);
    }
  }

  return (id) => {
    const [first, second] = channels;
    if (held() && computed !== null) {
      waiting = { channel: computed.channel === first ? second : first, id };
      void send(waiting);
      return;
    }
    // At rest nothing older is waited for.
    if (waiting !== null || computed?.channel === second) worker.stop(second);
    waiting = null;
    computed = { channel: first, id };
    void send(computed);
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
