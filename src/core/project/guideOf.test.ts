import { describe, expect, it } from "vitest";
import { type Outcome, pathText } from "../problem.ts";
import { predict } from "../tasks/predict/predict.ts";
import { describe as describeProject } from "./describe.ts";
import { loadProject, type Project } from "./load.ts";

function project(microphone: Readonly<Record<string, unknown>>): Project {
  const loaded = loadProject(JSON.stringify({ format: "glassdrum-project", version: 1, microphone }));
  if (!loaded.ok) throw new Error(loaded.problems.map(({ message }) => message).join(" "));
  return loaded.value;
}

const crown = { material: "borosilicate-crown" };
const bath = { kind: "ion-exchange", salt: "potassium", temperature: "385 degC", time: "3 h", window: "4 um" };
const exchanged = (change: Readonly<Record<string, unknown>> = {}, more: Readonly<Record<string, unknown>> = {}) =>
  project({ diaphragm: crown, guide: { at: "2.4 mm", process: { ...bath, ...change } }, ...more });
const strip = (layer: Readonly<Record<string, unknown>>, profile: Readonly<Record<string, unknown>> = {}) =>
  project({ diaphragm: crown, guide: { profile: { kind: "layered", layers: [layer], ...profile } } });

const codes = (outcome: Outcome<unknown>) =>
  (outcome.ok ? outcome.remarks : outcome.problems).map(({ code, path }) => `${code} ${pathText(path)}`);
const described = (of: Project) => codes(describeProject(of));

function guide(of: Project) {
  const outcome = describeProject(of);
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  return outcome.value.guides[0];
}

describe("a guide from its process", () => {
  it("gets depth, width and birefringence from its modes, each mode its own", () => {
    const { depth, width, birefringence, modes } = guide(exchanged());
    expect(modes?.te.depth).not.toBe(modes?.tm.depth);
    expect(depth).toBeCloseTo(((modes?.te.depth ?? 0) + (modes?.tm.depth ?? 0)) / 2, 15);
    expect(width).toBeGreaterThan(2e-6);
    expect(birefringence).toBeCloseTo((modes?.tm.index ?? 0) - (modes?.te.index ?? 0), 15);
    // The extra index of TM is 0.001 at the face; a mode near its cut-off sees a small share of it.
    expect(birefringence).toBeGreaterThan(0);
    expect(birefringence).toBeLessThan(1e-3);
  });

  it("lies deeper after a longer bath, and so hears less: time turns the sensitivity through depth and weights", () => {
    const sensitivity = (time: string) => {
      const outcome = predict(exchanged({ time }), { frequencies: [1000], manner: "quick" });
      if (!outcome.ok) throw new Error("no answer");
      return Math.abs(outcome.value.sensitivity.static);
    };
    const [short, long] = [guide(exchanged({ time: "2.5 h" })), guide(exchanged({ time: "7 h" }))];
    expect(long.depth).toBeGreaterThan(short.depth + 0.2e-6);
    const alike = sensitivity("7 h") / sensitivity("2.5 h");
    expect(alike).toBeLessThan(0.985);
    // By hand: phi ~ A_TM d_TM' - A_TE d_TE' of a guide whose width moves it little.
    const { p11, p12, poissonRatio: nu } = long.optics;
    const s = nu / (1 - nu);
    const weight = ({ modes }: typeof long) =>
      (p12 - p11 * s) * (15e-6 - (modes?.tm.depth ?? 0)) - (p11 - p12 * s) * (15e-6 - (modes?.te.depth ?? 0));
    expect(alike / (weight(long) / weight(short))).toBeCloseTo(1, 2);
  });

  it("keeps what is given by hand: depth before profile, profile before process, width and birefringence always", () => {
    const both = { process: bath, profile: { kind: "step", indexChange: 0.01, depth: "3 um", width: "3 um" } };
    const step = guide(project({ diaphragm: crown, guide: both }));
    expect(step.depth).not.toBeCloseTo(guide(exchanged()).depth, 7);
    const own = guide(project({ diaphragm: crown, guide: { process: bath, width: null, birefringence: 2e-4 } }));
    expect(own).toMatchObject({ width: null, birefringence: 2e-4 });
    expect(guide(project({ diaphragm: crown, guide: { depth: "2 um", process: bath } })).modes).toBeUndefined();
  });

  it("says what heat and stress do", () => {
    expect(described(exchanged())).toEqual([
      "diffusion-from-memory microphone.guide.process.diffusion",
      "heat-changes-guide microphone.guide.process",
    ]);
    expect(described(exchanged({ everywhere: true }))).toContain("exchange-buckles microphone.guide.process");
    const weak = exchanged({ everywhere: true, stress: "10 MPa" });
    expect(described(weak)).toContain("exchange-stresses microphone.guide.process");
  });

  it.each([
    ["no mode", exchanged({ time: "5 min" }), "no-guided-mode microphone.guide.process"],
    ["several modes", exchanged({ time: "6 h" }), "several-modes microphone.guide.process"],
    [
      "a cover of higher index",
      strip({ thickness: "3 um", index: 1.53, width: "3 um" }, { cover: 1.6 }),
      "leaks-into-cover microphone.guide.profile",
    ],
    [
      "a film thinner than its mode",
      strip({ thickness: "0.5 um", index: 1.55, width: "8 um" }),
      "film-thinner-than-mode microphone.guide.profile",
    ],
    [
      "light that meets the other face",
      project({ diaphragm: { ...crown, thickness: "5 um" }, guide: { process: { ...bath, time: "5 h" } } }),
      "mode-meets-other-face microphone.guide.process",
    ],
    [
      "a mode deeper than the diaphragm",
      project({
        diaphragm: { ...crown, thickness: "3 um" },
        guide: { profile: { kind: "step", indexChange: 0.02, below: "4 um", depth: "3 um", width: "3 um" } },
      }),
      "guide-too-deep microphone.guide.profile",
    ],
    [
      "a wavelength outside the glass's data",
      project({
        diaphragm: crown,
        guide: { profile: { kind: "step", indexChange: 0.05, depth: "6 um", width: "6 um" } },
        light: { wavelength: "2.6 um" },
      }),
      "index-outside-range microphone.diaphragm.material",
    ],
    ["a bath without time", exchanged({ time: undefined }), "missing-value microphone.guide.process.time"],
    [
      "a profile without depth",
      project({ guide: { profile: { kind: "erfc" } } }),
      "missing-value microphone.guide.profile.depth",
    ],
    [
      "silver without its index change",
      exchanged({ salt: "silver" }),
      "missing-value microphone.guide.process.indexChange",
    ],
    [
      "an interferometer in a crystal",
      project({
        diaphragm: { material: "silicon-100-110" },
        light: { wavelength: "1.55 um" },
        readout: { kind: "interferometric" },
      }),
      "arm-in-crystal microphone.readout.kind",
    ],
  ])("%s: says so", (_what, of, expected) => {
    expect(described(of)).toContain(expected);
  });

  it("an interferometer reads one mode with its whole index", () => {
    const read = (mode: string) =>
      guide(project({ diaphragm: crown, readout: { kind: "interferometric", arm: mode } })).arm;
    expect([read("TE"), read("TM")]).toEqual(["TE", "TM"]);
  });
});
