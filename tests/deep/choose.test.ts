/** Twelve seeded briefs against a dense grid: no point of it is better than what is chosen, and a refused brief is met once relaxed. */
import { describe, expect, test } from "vitest";
import { changeValue, choose, type Project } from "../../src/core/index.ts";
import { drain } from "../../src/core/numerics/progress.ts";
import { seededUniform } from "../../src/core/numerics/random.ts";
import { better, type Cost } from "../../src/core/numerics/searchBox.ts";
import { readBrief } from "../../src/core/project/brief.ts";
import { describe as describeProject } from "../../src/core/project/describe.ts";
import { vary } from "../../src/core/project/paths.ts";
import { worthOf } from "../../src/core/tasks/choose/worth.ts";
import { judge } from "../../src/core/tasks/predict/judge.ts";
import { prepareJudging, tellingOf } from "../../src/core/tasks/predict/judgeBatch.ts";
import { demo } from "../demoProject.ts";
import { good } from "../outcomes.ts";

const changed = (project: Project, changes: Readonly<Record<string, unknown>>) =>
  Object.entries(changes).reduce(
    (one, [path, value]) => good(changeValue(one, path, typeof value === "string" ? value : JSON.stringify(value))),
    project,
  );

const thicknesses = [30e-6, 50e-6, 70e-6];
const sides = { from: 3e-3, to: 9e-3 };
const gaps = { from: 15e-6, to: 200e-6 };
const base = changed(demo, {
  "microphone.frame": null,
  choices: [
    { path: "microphone.diaphragm.thickness", from: ["30 um", "50 um", "70 um"] },
    { path: "microphone.diaphragm.across", between: ["3 mm", "9 mm"] },
    { path: "microphone.film.gap", between: ["15 um", "200 um"] },
  ],
});

/** A square as the choices leave it: the side along stays, the guide goes with the side across. */
const at = good(
  vary(base, [
    "microphone.diaphragm.thickness",
    "microphone.diaphragm.across",
    "microphone.film.gap",
    "microphone.guide.at",
  ]),
).at;
const designAt = ([thickness = 0, side = 0, gap = 0]: readonly number[]) =>
  at([thickness, side, gap, (2.6 / 5.5) * side]);
const ladder = ({ from, to }: { from: number; to: number }, count: number) =>
  Array.from({ length: count }, (_, i) => from * (to / from) ** (i / (count - 1)));
const grid = thicknesses.flatMap((h) => ladder(sides, 14).flatMap((a) => ladder(gaps, 18).map((g) => [h, a, g])));

/** What one random design does, asked for a little less (feasible) or far more (infeasible) than it does. */
function briefOf(seed: number): object {
  const uniform = seededUniform(seed);
  const between = ({ from, to }: { from: number; to: number }) => from * (to / from) ** uniform();
  const open = readBrief(changed(base, { brief: { vibration: { atMost: "100 dB" } } }));
  const values = [thicknesses[Math.floor(3 * uniform())]!, between(sides), between({ from: 25e-6, to: 60e-6 })];
  const { measures } = good(judge(good(designAt(values)), open));
  const infeasible = seed % 3 === 0;
  const hard = infeasible ? 4 : 0.93;
  return {
    band: {
      from: "50 Hz",
      to: `${(0.93 * (measures.bandTo ?? 3e3)).toFixed(0)} Hz`,
      within: "3 dB",
      must: uniform() < 0.5,
    },
    sensitivity: { atLeast: `${(hard * (measures.sensitivity ?? 1e-4)).toPrecision(4)} rad/Pa` },
    noise: { atMost: `${((measures.noise ?? 50) + (infeasible ? -12 : 0.5)).toFixed(2)} dB` },
    loudest: { atLeast: `${((measures.loudest ?? 130) - 0.5).toFixed(2)} dB` },
  };
}

const briefs = Array.from({ length: 12 }, (_, i) => ({
  seed: i + 1,
  brief: briefOf(i + 1),
  infeasible: (i + 1) % 3 === 0,
}));

const unit = (requirement: string) =>
  requirement.startsWith("brief.band")
    ? "Hz"
    : requirement.startsWith("brief.sensitivity")
      ? "rad/Pa"
      : /noise|loudest|vibration/.test(requirement)
        ? "dB"
        : "";

describe("choose against a dense grid", () => {
  test.each(briefs)("brief $seed", ({ brief, infeasible, seed }) => {
    const project = changed(base, { brief });
    const asked = readBrief(project);
    const found = good(drain(choose(project, { seed })));
    const chosen = worthOf(good(judge(good(describeProject(changed(project, found.designs[0]!.set))), asked)));
    const placed = grid.flatMap((values) => {
      const described = designAt(values);
      return described.ok ? [{ values, microphone: described.value }] : [];
    });
    const batch = drain(prepareJudging(tellingOf(placed[0]!, placed), asked));
    let best: Cost | null = null;
    for (const { values, microphone } of placed) {
      const judged = judge(microphone, asked, { batch, values });
      if (!judged.ok) continue;
      const worth = worthOf(judged.value);
      if (best === null || better(worth, best)) best = worth;
    }
    // Quick verdicts agree to 1e-4 with one another.
    expect(chosen.violation).toBeLessThanOrEqual(best!.violation + 1e-3);
    if (best!.violation === 0) expect(chosen.cost).toBeLessThanOrEqual(best!.cost + 1e-3);
    expect(found.refused.length > 0).toBe(infeasible);
    if (found.refused.length === 0) return;
    const relaxed = found.refused.reduce(
      (one, { requirement, nearest }) => changed(one, { [requirement]: `${nearest} ${unit(requirement)}`.trim() }),
      project,
    );
    expect(good(drain(choose(relaxed, { seed }))).refused).toEqual([]);
  });

  test("20 Hz to 16 kHz within 2 dB, 1 mrad/Pa and 30 dB(A) of glass from 30 um is refused with both reasons", () => {
    const project = changed(base, {
      brief: {
        band: { from: "20 Hz", to: "16 kHz", within: "2 dB", must: true },
        sensitivity: { atLeast: "1 mrad/Pa" },
        noise: { atMost: "30 dB" },
      },
    });
    const { refused } = good(drain(choose(project)));
    const names = refused.map(({ requirement }) => requirement);
    expect(names).toContain("brief.noise.atMost");
    expect(names.some((one) => one === "brief.sensitivity.atLeast" || one === "brief.band.to")).toBe(true);
    expect(refused.every(({ reason }) => reason.length > 20)).toBe(true);
  });
});
