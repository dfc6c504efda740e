import { describe, expect, it } from "vitest";
import { loadProject } from "../../project/load.ts";
import { predict } from "./predict.ts";
import type { Prediction } from "./prediction.ts";

type Values = Readonly<Record<string, unknown>>;

function predicted(microphone: Values, brief: Values = {}): Prediction {
  const loaded = loadProject(JSON.stringify({ format: "glassdrum-project", version: 1, brief, microphone }));
  const answer = loaded.ok ? predict(loaded.value, { frequencies: [1000], manner: "quick" }) : loaded;
  if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join(" "));
  return answer.value;
}

const codes = ({ remarks }: Prediction) => remarks.map(({ code }) => code);
const site = { site: { temperature: ["15 degC", "35 degC"] } };
const drifting = { birefringence: 0.001, birefringencePerKelvin: "1e-7 1/K" };

describe("the light at rest", () => {
  it("stands where the file says, or where birefringence puts it", () => {
    expect(predicted({}).light).toMatchObject({
      biasFrom: "given",
      quadrature: 1,
      slope: 1,
      output: expect.closeTo(0),
    });
    const { light } = predicted({ readout: { bias: null }, guide: { birefringence: 0.001, length: "20 mm" } });
    expect(light.biasFrom).toBe("computed");
    // 2 pi B L / lambda, by hand: 198.5 rad.
    expect(light.bias).toBeCloseTo((2 * Math.PI * 0.001 * 20e-3) / 633e-9, 9);
  });

  it("says which length or temperature of the guide makes the bias that is wanted", () => {
    const given = predicted({ readout: { bias: "90 deg" }, guide: drifting });
    const { lengthChange, temperatureChange, bias } = given.light.present;
    expect(bias).toBeCloseTo(Math.PI / 2, 12);
    // A turn is 633 nm / 0.001 of guide.
    expect(Math.abs(lengthChange ?? 1)).toBeLessThan(317e-6);
    const longer = `${20 + 1e3 * (lengthChange ?? 0)} mm`;
    const made = predicted({ readout: { bias: null }, guide: { ...drifting, length: longer } });
    expect(Math.cos(made.light.bias)).toBeCloseTo(0, 6);
    expect(Math.sin(made.light.bias)).toBeCloseTo(1, 6);
    expect(made.light.present).toMatchObject({ lengthChange: expect.closeTo(0), temperatureChange: expect.closeTo(0) });
    // The same phase by either way.
    const byLength = ((2 * Math.PI) / 633e-9) * 0.001 * (lengthChange ?? 0);
    expect((temperatureChange ?? 0) * given.light.drift.perKelvin).toBeCloseTo(byLength, 9);
  });

  it("in the null has no linear signal, and says where there is one", () => {
    const answer = predicted({ readout: { bias: "0 deg" } });
    expect(codes(answer)).toContain("bias-in-null");
    expect(answer.light.distortion.map(({ amplitude }) => amplitude)).toEqual([null, null]);
    expect(Math.abs(answer.light.choose.bias)).toBeCloseTo(Math.PI / 2, 9);
    expect(codes(predicted({}))).not.toContain("bias-in-null");
    const alone = predicted({ readout: { polarizer: { angle: "0 deg" } } });
    expect(codes(alone)).toContain("bias-in-null");
  });

  it("drifts with temperature, and a servo with enough range holds it", () => {
    const free = predicted({ guide: drifting }, site);
    // 2 pi / 633 nm * 1e-7 * 20 mm = 0.01985 rad/K, and the stretched birefringence beside it.
    expect(free.light.drift.perKelvin).toBeCloseTo(0.01985 + 199 * 7.2e-6, 3);
    const { temperature = 0 } = free.light.drift.stepForOneDb;
    expect(temperature).toBeCloseTo(Math.acos(10 ** -0.05) / free.light.drift.perKelvin, 6);
    expect(codes(free)).not.toContain("bias-drifts");
    const strong = { guide: { ...drifting, birefringencePerKelvin: "1e-6 1/K" } };
    expect(codes(predicted(strong, site))).toContain("bias-drifts");
    const held = predicted({ ...strong, readout: { servo: { range: "400 deg", corner: "5 Hz" } } }, site);
    expect(codes(held)).not.toContain("bias-drifts");
    expect(held.light.drift.site).toMatchObject({ held: true, leastSlopeDb: expect.closeTo(0) });
  });

  it("of two guides of opposite weights hardly drifts", () => {
    const two = [
      { at: "0 mm", ...drifting, weight: 1 },
      { at: "2.4 mm", ...drifting, weight: -1 },
    ];
    const both = predicted({ guide: two });
    expect(both.light.drift.perKelvin).toBeCloseTo(0, 12);
    const one = predicted({ guide: two[0] });
    expect(both.sensitivity.magnitude).toBeGreaterThan(one.sensitivity.magnitude);
  });

  it("warns of a servo in the band, a magnet, a wide line and a crossed fiber", () => {
    const answer = predicted(
      {
        readout: { servo: { range: "1 rad", corner: "100 Hz" }, polarizer: { extinction: "20 dB" } },
        light: { linewidth: "1 THz", fiber: { crosstalk: "15 dB" } },
      },
      { band: { from: "20 Hz", to: "5 kHz" }, site: { precautions: ["strong-magnet"] } },
    );
    expect(codes(answer)).toEqual(
      expect.arrayContaining(["servo-in-band", "strong-magnet", "incoherent", "fiber-crosstalk"]),
    );
    // 2 sqrt(10^-1.5 * 10^-2)
    expect(answer.light.drift.crosstalk).toBeCloseTo(0.03557, 5);
    expect(answer.light.coherence?.contrast).toBeCloseTo(Math.exp(-(0.001 * 20e-3 * Math.PI * 1e12) / 299792458), 6);
  });

  it("of an interferometer answers with one mode, stronger by the whole index where the ends turn", () => {
    const ends = { edges: "supported" };
    const arm = predicted({ diaphragm: ends, readout: { kind: "interferometric", arm: "TM", pathDifference: "1 um" } });
    const difference = predicted({ diaphragm: ends });
    expect(arm.sensitivity.magnitude).toBeGreaterThan(difference.sensitivity.magnitude);
    expect(arm.light.pathDifference).toBe(1e-6);
  });
});
