import { expect, test } from "vitest";
import { between, scattered } from "./scattered.ts";
import { lowDiscrepancy } from "./sobolSequence.ts";

const points = lowDiscrepancy({ dimensions: 2, seed: 1 });
const places = Array.from({ length: 40 }, (_, i) => [1 + points(i)[0]!, 2 + points(i)[1]!]);
const fresh = Array.from({ length: 20 }, (_, i) => [1 + points(100 + i)[0]!, 2 + points(100 + i)[1]!]);

test("a polynomial of the fourth degree is met exactly, everywhere", () => {
  const f = ([x = 0, y = 0]: readonly number[]) => 3 - x + 2 * x * y ** 2 + x ** 4;
  const map = scattered(places, [places.map(f)])!;
  for (const place of fresh) expect(between(map, place)[0]! / f(place)).toBeCloseTo(1, 9);
  expect(map.errors[0]).toBeLessThan(1e-8);
});

test("the error at points left out is the size of the error between the points", () => {
  const f = ([x = 0, y = 0]: readonly number[]) => Math.sin(3 * x) * Math.exp(y);
  const map = scattered(places, [places.map(f)])!;
  const squares = fresh.map((place) => (between(map, place)[0]! - f(place)) ** 2);
  const found = Math.sqrt(squares.reduce((a, b) => a + b, 0) / squares.length);
  expect(found).toBeLessThan(3 * map.errors[0]!);
  expect(map.errors[0]).toBeLessThan(30 * found);
});

test("what never varies, or only with another coordinate, is no direction; a place twice is one", () => {
  const tied = places.map(([x = 0]) => [x, 2 * x, 7]);
  const map = scattered([...tied, tied[0]!], [[...tied, tied[0]!].map(([x = 0]) => x ** 2)])!;
  expect(map.directions.length).toBe(1);
  expect(between(map, [1.3, 2.6, 7])[0]).toBeCloseTo(1.69, 9);
  expect(between(scattered([[5], [5]], [[3, 3]])!, [5])).toEqual([3]);
});

test("a coordinate with three values carries no cube, and too few points carry nothing", () => {
  const three = places.map(([x = 0], i) => [x, i % 3]);
  const map = scattered(three, [three.map(([x = 0, k = 0]) => x * k ** 2)])!;
  expect(between(map, [1.5, 2])[0]).toBeCloseTo(6, 2);
  expect(scattered(places.slice(0, 3), [[1, 2, 3]])).toBeNull();
});
