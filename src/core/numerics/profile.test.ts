import { expect, test } from "vitest";
import { fitNonlinear } from "./nonlinearFit.ts";
import { bootstrapIntervals, profileInterval } from "./profile.ts";
import { studentQuantile } from "./quantiles.ts";
import { seededNormal } from "./random.ts";

const normal = seededNormal(7);
const x = Array.from({ length: 30 }, (_, i) => i / 10);

test("for a straight line the profile is Student's interval, and the bootstrap is near it", () => {
  const y = x.map((at) => 2 + 3 * at + 0.2 * normal());
  const question = { model: ([a, b]: readonly number[], at: number) => a! + b! * at, start: [1, 1], x, y };
  const fit = fitNonlinear(question);
  const profile = profileInterval(question, 1);
  const bootstrap = bootstrapIntervals(question, { count: 400, seed: 3 });
  if (!fit.ok || !profile.ok || !bootstrap.ok) throw new Error("refused");
  const half = studentQuantile(0.975, 28) * fit.value.standardUncertainties![1]!;
  expect(profile.value.high! - fit.value.values[1]!).toBeCloseTo(half, 5);
  expect(fit.value.values[1]! - profile.value.low!).toBeCloseTo(half, 5);
  expect((bootstrap.value[1]!.high - bootstrap.value[1]!.low) / (2 * half)).toBeCloseTo(1, 0);
});

test("where a value has no upper bound the profile says so", () => {
  const y = x.map((at) => 1 - Math.exp(-8 * at) + 0.2 * normal());
  const profile = profileInterval(
    { model: ([b]: readonly number[], at: number) => 1 - Math.exp(-b! * at), start: [5], x: x.slice(3), y: y.slice(3) },
    0,
  );
  expect(profile.ok && profile.value.low).toBeGreaterThan(0);
  expect(profile.ok && profile.value.high).toBeNull();
});

test("no degree of freedom, no interval", () => {
  const profile = profileInterval({ model: ([a]: readonly number[]) => a!, start: [1], x: [0], y: [2] }, 0);
  expect(profile.ok ? [] : profile.problems.map(({ code }) => code)).toEqual(["no-degree-of-freedom"]);
});
