/** One question for all cores: each thread does its share, and what they have so far is put together. */
import type { Step } from "../../worker/protocol.ts";
import type { WorkerQuestions } from "../../worker/tasks.ts";
import { answerOf, type TaskAnswer, type Way } from "./taskAnswer.ts";
import { useWork } from "./work.ts";

export interface Shares<Input, Value> {
  /** The question of one thread. */
  readonly share: (input: Input, index: number, of: number) => Input;
  readonly join: (values: readonly [Value, ...Value[]]) => Value;
}

export function sharedAnswer<Name extends keyof WorkerQuestions>(
  task: Name,
  question: () => WorkerQuestions[Name]["input"] | null,
  { share, join }: Shares<WorkerQuestions[Name]["input"], WorkerQuestions[Name]["value"]>,
): TaskAnswer<WorkerQuestions[Name]["value"]> {
  type Value = WorkerQuestions[Name]["value"];
  const { crew } = useWork();
  const way: Way<WorkerQuestions[Name]["input"], Value> = {
    ask: async (input, onStep) => {
      const steps: (Step<Value> | null)[] = crew.map(() => null);
      /** What each thread has shown, pass by pass. */
      const passes: Value[][] = crew.map(() => []);
      let [level, shown]: [number, Value | null] = [0, null];
      /** Says how far all are together, with the picture of the last pass that all have done. */
      function heard(index: number, step: Step<Value>): void {
        steps[index] = step;
        if (step.soFar !== undefined) passes[index]?.push(step.soFar);
        const common = Math.min(...passes.map(({ length }) => length));
        if (common > level) {
          level = common;
          shown = join(passes.map((pass) => pass[common - 1]) as [Value, ...Value[]]);
        }
        const [done, of] = steps.reduce(([a, b], one) => [a + (one?.done ?? 0), b + (one?.of ?? step.of)], [0, 0]);
        onStep({ done, of, ...(shown !== null && { soFar: shown }) });
      }
      const replies = await Promise.all(
        crew.map((thread, i) =>
          thread.ask(task, task, share(input, i, crew.length), {
            urgency: "batch",
            onStep: (step) => heard(i, step),
          }),
        ),
      );
      const odd = replies.find(({ kind }) => kind !== "answer");
      if (odd !== undefined) return odd;
      const answers = replies.flatMap((reply) => (reply.kind === "answer" ? [reply] : []));
      const [first] = answers;
      if (first === undefined) throw new Error("sharedAnswer: no thread was asked");
      return { ...first, value: join(answers.map(({ value }) => value) as [Value, ...Value[]]) };
    },
    stop: () => {
      for (const thread of crew) thread.stop(task);
    },
  };
  return answerOf(task, question, way);
}
