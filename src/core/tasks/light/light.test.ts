import { describe, expect, it } from "vitest";
import type { Outcome } from "../../problem.ts";
import { loadProject, type Project } from "../../project/load.ts";
import { exchangeTime } from "./exchangeTime.ts";
import { guideView } from "./guideView.ts";
import { heldBy, type ModeWindow, modeWindow } from "./modeWindow.ts";

const bath = { kind: "ion-exchange", salt: "potassium", temperature: "385 degC", time: "3 h", window: "4 um" };

function project(guide: unknown, light: unknown = { fiber: { mode: "4.3 um" } }): Project {
  const file = {
    format: "glassdrum-project",
    version: 1,
    microphone: { diaphragm: { material: "borosilicate-crown" }, guide, light },
  };
  const loaded = loadProject(JSON.stringify(file));
  if (!loaded.ok) throw new Error("not a project");
  return loaded.value;
}

function run<T>(task: Generator<unknown, Outcome<T>>): Outcome<T> {
  let step = task.next();
  while (!step.done) step = task.next();
  return step.value;
}

const codes = (outcome: Outcome<unknown>) => (outcome.ok ? [] : outcome.problems.map(({ code }) => code));

describe("the guide as it is made", () => {
  it("shows both modes, brightest under the middle of the window, and what a fiber couples", () => {
    const view = guideView(project({ process: bath }));
    if (!view.ok) throw new Error("no view");
    const { te, coupling, profile, base } = view.value;
    const brightest = te.intensity.indexOf(1);
    expect(te.x[brightest % te.x.length]).toBeCloseTo(0, 7);
    expect(coupling?.te).toBeGreaterThan(0.5);
    expect(coupling?.te).toBeLessThan(1);
    expect(profile.te[0]).toBeGreaterThan(base);
  });

  it("has no profile where its depth is given, no time without a bath, no throughput without a fiber", () => {
    expect(codes(guideView(project({ depth: "3 um" })))).toEqual(["guide-not-made"]);
    const step = { profile: { kind: "step", indexChange: 0.01, depth: "3 um", width: "3 um" } };
    expect(codes(run(exchangeTime(project(step), { points: 1 })))).toEqual(["no-bath"]);
    expect(codes(run(exchangeTime(project({ process: bath }, {}), { points: 1 })))).toEqual(["no-fiber"]);
  });

  it("holds fewer modes of longer light and more after longer baths", () => {
    const window = run<ModeWindow>(modeWindow(project({ process: bath }), { against: "depth", points: 3 }));
    if (!window.ok) throw new Error("no window");
    const { held } = window.value;
    const at = (row: number, column: number) => held[row * 3 + column] ?? -1;
    for (const i of [0, 1, 2]) {
      expect(at(i, 0)).toBeGreaterThanOrEqual(at(i, 2));
      expect(at(2, i)).toBeGreaterThanOrEqual(at(0, i));
    }
    expect(at(2, 0)).toBe(2);
    expect(at(0, 2)).toBe(0);
  });

  it("tells none, one and several apart", () => {
    const core = (width: number) =>
      heldBy(
        { kind: "step", indexChange: 0.01, birefringence: 0, depth: width, below: 5e-6, width, edge: 0, cover: 1.5 },
        1.5,
        633e-9,
      );
    expect([core(2e-6), core(6e-6)]).toEqual([1, 2]);
  });

  it("finds a time in the bath where the guide is single mode and hears most through its fiber", () => {
    const time = run(exchangeTime(project({ process: bath }), { points: 4, halvings: 1 }));
    if (!time.ok) throw new Error("no time");
    const { best, tried } = time.value;
    const single = tried.filter(({ merit }) => merit !== null);
    expect(single.length).toBeGreaterThan(0);
    expect(best).toBe(single.find(({ merit }) => merit === 1)?.time);
  });
});
