/** Times tasks inside this process, in turns, so that whatever slows the machine slows all of them. */
import type { Repeated, Timed } from "./task.ts";

const rounds = 31;
/** One measurement lasts at least so long [s]. */
const least = 4e-3;

export function timeRepeated(kernel: Repeated, tasks: readonly Repeated[]): readonly Timed[] {
  const all = [kernel, ...tasks].map((task) => ({ task, once: task.make(), done: 0, batch: 1 }));
  type Running = (typeof all)[number];
  const measure = (running: Running) => {
    const start = process.hrtime.bigint();
    for (let i = 0; i < running.batch; i++) running.once(++running.done);
    return Number(process.hrtime.bigint() - start) * 1e-9;
  };
  // Warm until the compiler is done with it, and find how many repetitions make a measurement.
  for (const running of all) {
    const until = performance.now() + 400;
    let seconds = 0;
    while (performance.now() < until) {
      seconds = measure(running);
      if (seconds < least) running.batch *= 2;
    }
  }
  const times = all.map((): number[] => []);
  for (let round = 0; round < rounds; round++) {
    all.forEach((running, k) => {
      times[k]!.push(measure(running) / running.batch);
    });
  }
  return all.map(({ task, batch }, k) => ({
    name: task.name,
    ...(task.asked !== undefined && { asked: task.asked }),
    seconds: times[k]!,
    overKernel: times[k]!.map((time, round) => time / times[0]![round]!),
    notes: [`${rounds} times ${batch}`],
  }));
}
