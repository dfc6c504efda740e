import { describe, expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { demoText } from "../../project/demo.ts";
import { changeValue, loadProject, type Project } from "../../project/load.ts";
import { predict } from "../../tasks/predict/predict.ts";
import { lineSystem } from "./lineAnswer.ts";
import { structuralCompliance } from "./structuralNoise.ts";

function changed(...changes: readonly (readonly [string, string])[]): Project {
  const loaded = loadProject(demoText);
  if (!loaded.ok) throw new Error("The demo is a project.");
  let project = loaded.value;
  for (const [path, value] of changes) {
    const next = changeValue(project, path, value);
    if (!next.ok) throw new Error(`${path}: ${next.problems[0]?.message}`);
    project = next.value;
  }
  return project;
}

function predicted(...changes: readonly (readonly [string, string])[]) {
  const answered = predict(changed(...changes), { frequencies: [100, 1000, 5000], manner: "quick" });
  if (!answered.ok) throw new Error(answered.problems[0]?.message);
  return answered.value;
}

const density = (noise: ReturnType<typeof predicted>["noise"], source: string) =>
  noise.bySource.find((one) => one.source === source)?.density ?? Number.NaN;

describe("noise of a whole device", () => {
  const base = predicted();

  test("twice the power: shot noise falls by the root of two, what the receiver adds by two, heat and intensity stay", () => {
    const { noise } = predicted(["microphone.light.launched", "10 mW"]);
    expect(density(noise, "shot") / density(base.noise, "shot")).toBeCloseTo(Math.SQRT1_2, 12);
    for (const source of ["resistor", "voltage", "current", "rounding"])
      expect(density(noise, source) / density(base.noise, source)).toBeCloseTo(0.5, 12);
    for (const source of ["thermal", "intensity", "wavelength"])
      expect(density(noise, source) / density(base.noise, source)).toBeCloseTo(1, 12);
  });

  test("a film closed to overdamping raises the floor of heat", () => {
    const closed = predicted(["microphone.film.gap", "12 um"]);
    expect(closed.resonance.overdamped).toBe(true);
    const floor = ({ noise, response }: typeof base) =>
      (noise.thermal[1] ?? Number.NaN) / Math.hypot(response.re[1] ?? 0, response.im[1] ?? 0);
    expect(floor(closed)).toBeGreaterThan(3 * floor(base));
  });

  test("levels are those of all sources together, and bands add up to no less than their loudest", () => {
    const { noise, sensitivity } = base;
    const sum = noise.bySource.reduce((total, { levelA }) => total + 10 ** ((levelA ?? -999) / 10), 0);
    expect(10 * Math.log10(sum)).toBeCloseTo(noise.levelA ?? 0, 9);
    expect(noise.bySource.reduce((total, { share }) => total + share, 0)).toBeCloseTo(1, 12);
    const atReference = Math.sqrt(noise.bySource.reduce((total, one) => total + one.density ** 2, 0));
    expect(noise.total[1]).toBeCloseTo(atReference, 15);
    expect(noise.pressure[1]).toBeCloseTo(atReference / sensitivity.magnitude, 9);
    expect(noise.thirdOctaves.map(({ nominal }) => nominal)).toContain(1250);
    expect(Object.values(noise.byPart).reduce((total, share) => total + share, 0)).toBeCloseTo(1, 12);
  });

  test("one port keeps the laser's intensity noise, two reject it, two guides of opposite weight cancel it", () => {
    const one = predicted(["microphone.readout.outputs", "one"]);
    expect(density(one.noise, "intensity")).toBeGreaterThan(20 * density(base.noise, "intensity"));
    const guides = [2.6, -2.6].map(
      (at, i) => `{"at":"${at} mm","depth":"3 um","length":"20 mm","birefringence":0.001,"weight":${i === 0 ? 1 : -1}}`,
    );
    const pair = predicted(["microphone.readout.outputs", "one"], ["microphone.guide", `[${guides.join(",")}]`]);
    expect(density(pair.noise, "intensity")).toBeLessThan(1e-6 * density(one.noise, "intensity"));
    // Each guide has half the light, and a detector of its own.
    expect(density(pair.noise, "shot") / density(one.noise, "shot")).toBeCloseTo(2, 9);
  });

  test("without launched power there is heat and no level, and the reason stands there", () => {
    const bare = loadProject('{"format":"glassdrum-project","version":1,"brief":{"noise":{"atMost":"50 dB"}}}');
    if (!bare.ok) throw new Error("A bare project is one.");
    const answered = predict(bare.value, { frequencies: [1000], manner: "quick" });
    if (!answered.ok) throw new Error("A bare project is predicted.");
    const { noise, verdict } = answered.value;
    expect(noise.withoutLight).toBe("no-launched-power");
    expect(noise.levelA).toBeNull();
    expect(verdict.find(({ requirement }) => requirement === "brief.noise.atMost")?.met).toBeNull();
  });

  test("structural loss of a narrow light is what a light that the functions resolve tends to", () => {
    const light = (functions: number, width: number) => {
      const bare = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null, at: 1e-3 });
      const detail = { functions: { across: 4, along: 4 }, fine: { across: functions, along: 20 }, filmTerms: 4 };
      const [guide] = bare.guides;
      return structuralCompliance(lineSystem({ ...bare, guides: [{ ...guide, width }] }, detail));
    };
    // 64 functions, even and odd, see 0.35 mm by themselves; 16 need the local term and what goes as its logarithm.
    expect(light(16, 0.35e-3) / light(64, 0.35e-3)).toBeCloseTo(1, 1);
    expect(light(24, 60e-6) / light(48, 60e-6)).toBeCloseTo(1, 2);
  });
});
