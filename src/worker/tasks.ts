/** What a worker can be asked, by name. */
import { loadProject, type Prediction, predict } from "../core/index.ts";
import type { Task } from "./run.ts";

export type WorkerQuestions = {
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
};

export const tasks: Readonly<Record<keyof WorkerQuestions, Task>> = {
  // biome-ignore lint/correctness/useYield: a prediction is one step
  *predict(input) {
    const { text, frequencies } = input as WorkerQuestions["predict"]["input"];
    const loaded = loadProject(text);
    if (!loaded.ok) return loaded;
    return predict(loaded.value, frequencies === undefined ? {} : { frequencies });
  },
};
