import { describe, expect, test } from "vitest";
import { silentLimits } from "../../../tests/silentLimits.ts";
import type { Microphone } from "../../core/microphone/microphone.ts";
import { idealLight, idealReadout } from "../../core/parts/readout/ideal.ts";
import type { Prediction, Verdict } from "../../core/tasks/predict/prediction.ts";
import { predictLines } from "./predict.ts";

const q11 = 75e9;
const microphone: Microphone = {
  diaphragm: {
    across: 5.5e-3,
    along: 5.5e-3,
    thickness: 30e-6,
    stiffness: { q11, q12: 15e9, q22: q11, q66: 30e9 },
    density: 2510,
    edges: { sides: "clamped", ends: { rotation: 0.35 } },
    tension: { across: 0, along: 0 },
    lossFactor: 0.001,
  },
  guides: [
    {
      at: 2.6e-3,
      face: "front",
      depth: 3e-6,
      width: 4e-6,
      length: 20e-3,
      weight: 1,
      birefringence: 0.001,
      optics: { index: 1.523, p11: 0.121, p12: 0.2406, poissonRatio: 0.208, youngsModulus: 72.9e9 },
    },
  ],
  light: idealLight(633e-9),
  readout: idealReadout,
  air: {
    temperature: 296.15,
    pressure: 101325,
    humidity: 0.5,
    density: 1.186,
    viscosity: 1.8266e-5,
    heatRatio: 1.4,
    prandtl: 0.71,
    meanFreePath: 6.8e-8,
  },
  film: { gap: 38e-6, edges: { sides: "open", ends: "open" }, backPlate: null },
  front: null,
  back: null,
  body: null,
};

const line = (requirement: string, asked: number, got: number | null, must = false): Verdict => ({
  requirement,
  asked,
  got,
  met: got === null ? null : got >= asked,
  margin: got === null ? null : got - asked,
  must,
});

const prediction: Prediction = {
  response: { frequency: [100, 1000], re: [-7e-4, -7.1e-4], im: [1e-6, 2e-5], groupDelay: null },
  field: null,
  parts: null,
  deflection: { center: 6e-9 },
  vibration: { level: [71.5, 71.6], worst: { frequency: 1000, level: 71.6 } },
  sensitivity: {
    static: -0.75e-3,
    frequency: 1000,
    magnitude: 0.71e-3,
    scan: { at: [], value: [] },
    best: { at: 2.75e-3, value: -0.9e-3 },
    nulls: [-1.7e-3, 1.7e-3],
  },
  modes: [{ frequency: 9e3, parity: "ee" }],
  resonances: [
    { frequency: 7.6e3, dampingRatio: 0.52, share: 0.9 },
    { frequency: 18e3, dampingRatio: 0.1, share: 0 },
    { frequency: 31e3, dampingRatio: 0.05, share: -0.04 },
  ],
  resonance: { frequency: 7.6e3, dampingRatio: 0.52, overdamped: false },
  decays: [],
  band: { within: 2, reference: 1000, level: -63, from: null, to: 7.4e3 },
  film: { frequency: 1000, squeezeNumber: 28, gapOverViscousLayer: 0.55, knudsen: 0.0018, names: ["viscous"] },
  resolution: { functions: 8, filmTerms: 28, change: 3e-7, samples: 30, curveError: 1e-8, route: "whole" },
  time: null,
  straightness: null,
  rest: null,
  bias: [],
  ...silentLimits,
  verdict: [
    line("brief.band.to", 7e3, 7.4e3, true),
    line("brief.sensitivity.atLeast", 0.8e-3, 0.71e-3),
    line("brief.noise.atMost", 0.0063, null),
  ],
  cards: {},
  remarks: [],
};

const text = (change: Partial<Prediction> = {}, listed = false) =>
  predictLines({ title: "A listener", microphone, prediction: { ...prediction, ...change }, listed }).join("\n");

describe("the prediction in words", () => {
  test("fits one screen", () => {
    const remark = (i: number) => ({
      code: "x",
      path: ["microphone"],
      message: `Remark ${i} ${"goes on ".repeat(20)}`,
    });
    for (const remarks of [[], [1, 2].map(remark), new Array(40).fill(0).map((_, i) => remark(i))]) {
      const lines = text({ remarks }).split("\n");
      expect(lines.length).toBeLessThanOrEqual(44);
      expect(Math.max(...lines.map((one) => one.length))).toBeLessThanOrEqual(98);
    }
  });

  test("says that a device which puts nothing out has no band", () => {
    const band = { ...prediction.band, level: null, from: null, to: null };
    expect(text({ band })).toContain("none: nothing is put out at 1");
  });

  test("a body adds what the field does to the response, at the end of the band", () => {
    const field = { free: { re: [-7e-4, -10.14e-4], im: [0, 2e-5] }, random: [7e-4, 7.97e-4], approximate: true };
    const said = text({ field, band: { ...prediction.band, to: null } });
    expect(said).toMatch(/at 1\.00.kHz \+3\.1 dB facing the sound, \+1\.0 dB from all sides \(approximate:/);
    expect(text()).not.toContain("facing the sound");
  });

  test("parts say where the power goes and what the band hangs on", () => {
    const none = {
      ...{ structure: 0, filmFriction: 0, filmHeat: 0, wall: 0, frontHoles: 0, frontCavity: 0, backCavity: 0 },
      ...{ vent: 0, leak: 0, radiation: 0 },
    };
    const still = {
      ...{ plate: 0, film: 0, wall: 0, frontHoles: 0, frontCavity: 0, backCavity: 0, vents: 0, outside: 0 },
    };
    const parts = {
      losses: {
        atReference: { ...none, filmFriction: 0.57, frontCavity: 0.42, vent: 0.004 },
        atResonance: null,
        frequency: [],
        shares: [],
      },
      resonances: [{ frequency: 7.6e3, dampingRatio: 0.52, energy: { ...still, plate: 0.74, film: 0.26 } }],
      limits: { low: null, resonance: null, top: { frequency: 7.4e3, part: "film", influences: [] } },
      corner: 0.94,
      secondOrder: null,
    } as const;
    const said = text({ parts }).replace(/\s+/g, " ");
    expect(said).toContain("Losses at 1 kHz friction in the film 57 %, wall of the front cavity 42 %");
    expect(said).toContain("the resonance is diaphragm 74 %, film 26 % of its energy");
    expect(said).toContain("the upper end hangs on the film's gap; vent corner 940 mHz");
    expect(text()).not.toContain("hangs on");
  });

  test("says how straight the phase is, and what the device is before any sound", () => {
    const straightness = {
      series: { linear: 7e-4, quadratic: 1e-8, cubic: -1e-13 },
      leavesLine: 700,
      leavesLineLevel: 147.84,
      distorted: [
        { share: 0.01, pressure: 1400 },
        { share: 0.03, pressure: null },
      ],
      distortedLevel: [153.86, null],
      limit: "stretch",
      center: 1e-5,
      reach: 4000,
      curve: { pressure: [], phase: [], line: [] },
      frequency: 1000,
    } as const;
    const bias = [{ stress: -2.071, stressPerKelvin: 0.1529, load: 0.0979 }];
    const rest = { difference: 300, moment: null, center: 2.27e-6, mean: 7e-7, gap: null };
    const said = text({ straightness, bias, rest }).replace(/\s+/g, " ");
    expect(said).toContain("Straight at 1 kHz: off the line by 1 % at 147.8 dB, by the diaphragm's stretch");
    expect(said).toContain("At rest 300 Pa bends the diaphragm by 2.27 µm at its center; phase from it 0.0979 rad");
    const moment = { across: -1e-3, along: -1e-3 };
    expect(text({ rest: { ...rest, moment, difference: 0 } })).toContain("stress of the layers bows the diaphragm by");
    expect(text({ rest: { ...rest, moment } }).replace(/\s+/g, " ")).toContain(
      "300 Pa with stress of the layers bends",
    );
    expect(said).toContain("phase from built-in stress −2.07 rad, 0.153 rad a kelvin");
    expect(text()).not.toContain("At rest");
  });

  test("says how many remarks did not fit, and where they are", () => {
    const remarks = new Array(40).fill({ code: "x", path: [], message: "Twice two words." });
    const shown = text({ remarks }).match(/Twice two words/g)?.length ?? 0;
    expect(text({ remarks })).toContain(`${40 - shown} more remarks: --json lists them all`);
  });

  test("says what was assumed, with the units that were used", () => {
    expect(text()).toContain("5.5\u202fmm across, 5.5\u202fmm along the guide, 30\u202fµm thick");
    expect(text().replace(/\n +/g, " ")).toContain("sides clamped, ends held with 350\u202fmN");
    expect(text().replace(/\n +/g, " ")).toContain("air film 38\u202fµm, open");
  });

  test("gives each line of the brief its mark, asked, got and margin, and names what is not computed", () => {
    expect(text()).toMatch(/Brief: 1 of 2 not met/);
    expect(text()).toMatch(/✓ band to .*asked 7.00\u202fkHz .*got 7.40\u202fkHz .*margin 400\u202fHz \(a must\)/);
    expect(text()).toMatch(
      /✗ sensitivity at least .*asked 800\u202fµrad\/Pa .*got 710\u202fµrad\/Pa .*margin −90.0\u202fµrad\/Pa/,
    );
    expect(text()).toContain("not known, so not judged: noise at most");
  });

  test("gives a symmetric pair of nulls as one", () => {
    expect(text()).toContain("none at ±1.70\u202fmm");
  });

  test("names the resonance, and others only where they carry a share of the output", () => {
    expect(text()).toContain("7.60\u202fkHz, damping ratio 0.520; also 31.0\u202fkHz, damping ratio 0.0500");
    expect(text()).not.toContain("18.0");
  });

  test("says of an overdamped film that it has no oscillating pole, and how slowly it decays", () => {
    const resonance = { frequency: 3e3, dampingRatio: 1.4, overdamped: true };
    const decays = [{ rate: 1234, share: 0.8, partner: null }];
    expect(text({ resonances: [], decays, resonance }).replace(/\n +/g, " ")).toContain(
      "no oscillating pole: overdamped, slowest decay 1234 1/s; as a pair 3.00\u202fkHz, damping ratio 1.40",
    );
    const none = { frequency: null, dampingRatio: null, overdamped: false };
    expect(text({ resonances: [], decays: [], resonance: none })).toContain("no pole found");
  });

  test("lists the response where frequencies were asked for", () => {
    const listed = text({}, true);
    expect(listed).toMatch(/100\u202fHz +700.0\u202fµrad\/Pa +−63.10 dB +179.9°/);
    expect(text()).not.toContain("179.9°");
  });
});
