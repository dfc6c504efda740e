/**
 * What the Bench asks its worker: the tasks that a page needs at once. A browser's worker loads the others when one of them is
 * first asked for (`tasks.ts`). Shapes that were prepared once are kept between questions.
 */
// Not from core/index.ts: through it a bundler sees all of the core at the start.
import { createEngine } from "../core/microphone/engine.ts";
import { type ShapeAhead, shapeAhead, takeShape } from "../core/microphone/span/shapeAhead.ts";
import { answer, type Outcome } from "../core/problem.ts";
import { readBrief } from "../core/project/brief.ts";
import { describe } from "../core/project/describe.ts";
import { loadProject } from "../core/project/load.ts";
import { vary } from "../core/project/paths.ts";
import { type DampingCurve, dampingAgainstGap } from "../core/tasks/predict/dampingAgainstGap.ts";
import { predict, watch } from "../core/tasks/predict/predict.ts";
import type { Prediction, Watched } from "../core/tasks/predict/prediction.ts";
import { type Sensitivities, sensitivities } from "../core/tasks/predict/sensitivities.ts";
import { passageAlong, type ValuePassage, watchAlong } from "../core/tasks/predict/watchPassing.ts";
import type { Task } from "./run.ts";

export type FirstQuestions = {
  /** Problems: those of `loadProject` and of `predict`. */
  readonly predict: {
    readonly input: {
      /** The project's text. */
      readonly text: string;
      /** Frequencies of the response [Hz]; a grid where absent. */
      readonly frequencies?: readonly number[];
    };
    readonly value: Prediction;
  };
  /**
   * What a hand sees move, quickly: nothing is prepared for another question. `held`: the value that it holds, in place of the
   * text's. Problems: those of `loadProject`, of `watch` and of `watchAlong`.
   */
  readonly watch: {
    readonly input: { readonly text: string; readonly held: HeldValue | null };
    readonly value: Watched;
  };
  /** What quick answers need of a project's shape, for another thread's `takeShape`. Problems: those of `loadProject` and `describe`. */
  readonly shapeAhead: { readonly input: { readonly text: string }; readonly value: ShapeAhead };
  readonly takeShape: { readonly input: ShapeAhead; readonly value: null };
  /** The same for the shapes along one value; null: it changes none, or nothing spans them. Problems: those of `loadProject` and `vary`. */
  readonly passageAhead: {
    readonly input: { readonly text: string; readonly path: string };
    readonly value: ValuePassage | null;
  };
  readonly takePassage: { readonly input: ValuePassage; readonly value: null };
  /** What the numbers depend on most. Problems: those of `loadProject` and of `sensitivities`. */
  readonly sensitivities: { readonly input: { readonly text: string }; readonly value: Sensitivities };
  /** Gaps from `from` to `to` [m]. Problems: those of `loadProject` and of `dampingAgainstGap`. */
  readonly dampingAgainstGap: {
    readonly input: { readonly text: string; readonly from: number; readonly to: number; readonly count: number };
    readonly value: DampingCurve;
  };
};

/** A value [SI] under a hand. */
export interface HeldValue {
  readonly path: string;
  readonly value: number;
}

export const engine = createEngine();

/** The project of the last hand, made ready for one value to change. */
let underHand: { readonly text: string; readonly path: string; readonly ready: ReturnType<typeof readyFor> } | null =
  null;
let passage: ValuePassage | null = null;

function readyFor(text: string, path: string) {
  const loaded = loadProject(text);
  const variation = loaded.ok ? vary(loaded.value, [path]) : loaded;
  return loaded.ok && variation.ok
    ? answer({ variation: variation.value, brief: readBrief(loaded.value), engine })
    : (variation as Outcome<never>);
}

function watchHeld(text: string, { path, value }: HeldValue): Outcome<Watched> {
  if (underHand?.text !== text || underHand.path !== path) underHand = { text, path, ready: readyFor(text, path) };
  const { ready } = underHand;
  return ready.ok ? watchAlong(ready.value, value, passage?.path === path ? passage : null) : ready;
}

export const firstTasks: Readonly<Record<keyof FirstQuestions, Task>> = {
  // biome-ignore lint/correctness/useYield: a prediction is one step
  *predict(input) {
    const { text, ...options } = input as FirstQuestions["predict"]["input"];
    const loaded = loadProject(text);
    if (!loaded.ok) return loaded;
    // An exact answer owes nothing to earlier questions: it is the command's to the last digits.
    return predict(loaded.value, options);
  },
  // biome-ignore lint/correctness/useYield: an answer under a hand is one step
  *watch(input) {
    const { text, held } = input as FirstQuestions["watch"]["input"];
    if (held !== null) return watchHeld(text, held);
    const loaded = loadProject(text);
    return loaded.ok ? watch(loaded.value, { engine, manner: "quick", passing: true }) : loaded;
  },
  *shapeAhead(input) {
    const loaded = loadProject((input as FirstQuestions["shapeAhead"]["input"]).text);
    const described = loaded.ok ? describe(loaded.value) : loaded;
    return described.ok ? answer(yield* shapeAhead(engine, described.value)) : described;
  },
  // biome-ignore lint/correctness/useYield: it is one step
  *takeShape(input) {
    takeShape(engine, input as ShapeAhead);
    // It may be of another project: its slow poles are searched once.
    engine.lastRates = null;
    return answer(null);
  },
  *passageAhead(input) {
    const { text, path } = input as FirstQuestions["passageAhead"]["input"];
    const loaded = loadProject(text);
    return loaded.ok ? yield* passageAlong(loaded.value, path) : loaded;
  },
  // biome-ignore lint/correctness/useYield: it is one step
  *takePassage(input) {
    passage = input as ValuePassage;
    engine.lastRates = null;
    return answer(null);
  },
  *sensitivities(input) {
    const loaded = loadProject((input as FirstQuestions["sensitivities"]["input"]).text);
    return loaded.ok ? yield* sensitivities(loaded.value, { engine }) : loaded;
  },
  *dampingAgainstGap(input) {
    const { text, ...range } = input as FirstQuestions["dampingAgainstGap"]["input"];
    const loaded = loadProject(text);
    return loaded.ok ? yield* dampingAgainstGap(loaded.value, { ...range, engine }) : loaded;
  },
};
