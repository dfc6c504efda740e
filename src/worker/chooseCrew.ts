/**
 * A search in all threads: the first one plans and says what is to be done, each takes the next piece that waits. The answer does
 * not depend on how many there are.
 */
import type { Choices } from "../core/index.ts";
import type { Asker } from "./asker.ts";
import type { Reply, Step } from "./protocol.ts";
import type { ChooseSearch, WorkerQuestions } from "./tasks.ts";

type Crew = readonly Asker<WorkerQuestions>[];

const channel = "choose";

/** Refused, superseded and stopped (`abandonChoosing`) as the thread that says so. */
export async function chooseInCrew(
  crew: Crew,
  search: ChooseSearch,
  onStep: (step: Step<Choices>) => void = () => {},
): Promise<Reply<Choices>> {
  const [home, ...others] = crew;
  if (home === undefined) throw new Error("chooseInCrew: no thread");
  // They start while the first one makes ready what all share.
  for (const thread of others) void thread.ask(channel, "chooseBegin", search, { urgency: "batch" });
  let results: readonly (string | null)[] | null = null;
  let done = 0;
  for (;;) {
    const next: Reply<WorkerQuestions["chooseNext"]["value"]> = await home.ask(
      channel,
      "chooseNext",
      { ...search, results },
      { urgency: "batch" },
    );
    if (next.kind !== "answer") return next;
    if (next.value.found !== null) return { ...next, value: next.value.found };
    const { jobs, shared } = next.value;
    const given: (string | null)[] = jobs.map(() => null);
    const steps = jobs.map(() => 0);
    let waits = 0;
    let odd: Exclude<Reply<string>, { kind: "answer" }> | null = null;
    await Promise.all(
      crew.map(async (thread) => {
        while (waits < jobs.length && odd === null) {
          const at = waits++;
          const reply = await thread.ask(
            channel,
            "chooseJob",
            { ...search, job: jobs[at]!, shared },
            {
              urgency: "batch",
              onStep: (step) => {
                steps[at] = step.done;
                onStep({ done: done + steps.reduce((a, b) => a + b, 0), of: search.evaluations });
              },
            },
          );
          if (reply.kind === "answer") given[at] = reply.value;
          else odd ??= reply;
        }
      }),
    );
    if (odd !== null) return odd;
    done += steps.reduce((a, b) => a + b, 0);
    results = given;
  }
}

/** Ends the search where it is: its answer is what it has found. */
export function endChoosing(crew: Crew, run: number): void {
  for (const thread of crew) void thread.ask("end-choosing", "endChoosing", { run }, { urgency: "drag" });
}

/** Nobody wants its answer any more. */
export function abandonChoosing(crew: Crew): void {
  for (const thread of crew) thread.stop(channel);
}
