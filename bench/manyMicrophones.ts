/**
 * Chart, specimens and search as a whole, in seconds of one core, and beside each what the plain method would take: the whole
 * prediction of one microphone after the other, measured on a sample. `npm run bench -- thousands`.
 */
import {
  type Choices,
  chart,
  choose,
  demoText,
  describe,
  loadProject,
  type Outcome,
  planSpread,
  predictMicrophone,
} from "../src/core/index.ts";
import { readBrief } from "../src/core/project/brief.ts";
import { axisAround } from "../src/core/tasks/chart/chart.ts";
import { kernel } from "./kernel.ts";
import { peakMemory } from "./process.ts";

const good = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};

/** Processor time [s] of some work, and what the kernel took in between [s]: both rise where the machine is busy. */
function timed<T>(work: Generator<unknown, T>): {
  readonly value: T;
  readonly seconds: number;
  readonly kernel: number;
} {
  const once = kernel.make();
  const used = () => process.cpuUsage().user * 1e-6;
  let [seconds, kernels, count] = [0, 0, 0];
  for (let turn = 0; ; turn++) {
    const start = used();
    const step = work.next();
    seconds += used() - start;
    if (step.done) return { value: step.value, seconds, kernel: kernels / count };
    if (turn % 20 > 0) continue;
    const before = used();
    for (let i = 0; i < 5; i++) once(count++);
    kernels += used() - before;
  }
}

const specimens = 1000;

export function manyLines(): readonly string[] {
  const project = good(loadProject(demoText));
  const axis = (path: string) => good(axisAround(project, path));
  const plane = timed(
    chart(project, { x: axis("microphone.diaphragm.across"), y: axis("microphone.diaphragm.thickness"), count: 60 }),
  );
  const plan = good(planSpread(project, { count: 10_000, influence: 0 }));
  const ready = timed(plan.ready());
  const spread = timed(some(plan.specimen));
  const search = timed(choose(project));
  const plain = plainSeconds();
  const found: Choices = good(search.value);
  const { state, route } = good(plane.value);
  const all = ready.seconds + (10_000 / specimens) * spread.seconds;
  return [
    line("chart 60 x 60", plane.seconds, plane.kernel, { count: state.length, plain, asked: 6 }),
    `  ${route.spanned} points spanned, ${route.fallBack} fell back`,
    line("10,000 specimens", all, spread.kernel, { count: 10_000, plain, asked: 40 }),
    `  measured on ${specimens}, of which ${spread.value} were answered alone; made ready in ${ready.seconds.toFixed(2)} s`,
    line("choose for the demo", search.seconds, search.kernel, { count: found.search.evaluations, plain, asked: 10 }),
    ...memoryLines(),
  ];

  function* some(specimen: (index: number) => { readonly alone?: true }): Generator<unknown, number> {
    let alone = 0;
    for (let i = 0; i < specimens; i++) {
      if (specimen(i).alone) alone++;
      yield i;
    }
    return alone;
  }
}

const sides = ["--x", "microphone.diaphragm.across", "--y", "microphone.diaphragm.thickness"];
const commands = [
  { name: "chart 60 x 60", args: ["chart", "demo", ...sides, "--count", "60"] },
  { name: "10,000 specimens", args: ["spread", "demo", "--count", "10000", "--influence", "0"] },
  { name: "choose for the demo", args: ["choose", "demo"] },
];

/** Each as a command of its own, with all its threads. */
const memoryLines = (): readonly string[] =>
  commands.map(({ name, args }) => {
    const peak = peakMemory({ args: ["dist/cli/main.js", ...args, "--json"], statuses: [0, 1] });
    return `${name}: peak memory of its process with all threads ${(peak / 1e6).toFixed(0)} MB (asked below 400)`;
  });

/** One microphone by its whole prediction [s]. */
function plainSeconds(): number {
  const project = good(loadProject(demoText));
  const microphone = good(describe(project));
  const brief = readBrief(project);
  const before = process.cpuUsage().user;
  const sample = 8;
  for (let i = 0; i < sample; i++) {
    const { diaphragm } = microphone;
    const varied = { ...microphone, diaphragm: { ...diaphragm, across: diaphragm.across * (1 + 0.01 * i) } };
    predictMicrophone(varied, brief, { frequencies: [brief.reference] }, []);
  }
  return ((process.cpuUsage().user - before) * 1e-6) / sample;
}

function line(
  name: string,
  seconds: number,
  kernelSeconds: number,
  { count, plain, asked }: { readonly count: number; readonly plain: number; readonly asked: number },
): string {
  const kernels = seconds / kernelSeconds;
  return (
    `${name}: ${seconds.toFixed(1)} s of one core (asked ${asked}), ${(kernels / count).toFixed(1)} kernels each; ` +
    `one by one by whole predictions ${(plain * count).toFixed(0)} s, ${((plain * count) / seconds).toFixed(0)} times as long`
  );
}
