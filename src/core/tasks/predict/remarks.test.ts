import { describe, expect, test } from "vitest";
import { wholeDevice } from "../../../../truth/devices.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { sampleCurve } from "../../microphone/response/curve.ts";
import { coupledSystem, setFrequency } from "../../microphone/system/coupled.ts";
import { prepare } from "../../microphone/system/prepare.ts";
import { stateAt } from "../../microphone/system/state.ts";
import { complex } from "../../numerics/complex.ts";
import type { Brief } from "../../project/brief.ts";
import { jetRemarks, passagesIn } from "./jets.ts";
import { predictMicrophone, regimeOf } from "./predict.ts";
import { remarksOn } from "./remarks.ts";

const base = wholeDevice(0.001);
const brief = {
  band: null,
  sensitivity: null,
  reference: 1000,
  damping: null,
  noise: null,
  loudest: { atLeastDb: 120, distortion: 0.03, at: 1000, must: false },
  vibration: null,
  strength: null,
  site: { temperature: null, pressure: null, humidity: null, staticOverpressure: null, rise: null, precautions: [] },
} as const satisfies Brief;

const remarks = (microphone: Microphone, manner: "quick" | "exact" = "quick") =>
  predictMicrophone(microphone, brief, { frequencies: [1000], manner }, []).remarks;
const system = (microphone: Microphone) => coupledSystem(prepare(microphone), microphone);
const saidOf = (microphone: Microphone, code: string) =>
  remarks(microphone).find((remark) => remark.code === code)?.message ?? "";

describe("sealed", () => {
  const front = { holes: [], cavity: base.front!.cavity };

  test("in front: no sound gets in, or only by an exposed vent", () => {
    expect(saidOf({ ...base, front }, "sealed")).toContain("no sound reaches the diaphragm");
    const exposed = { ...base, front, back: { ...base.back!, vent: { ...base.back!.vent!, exposed: true } } };
    expect(saidOf(exposed, "sealed")).toContain("through the vent alone");
  });

  test("on both sides: neither sound nor weather", () => {
    const shut = { ...base, front, back: { ...base.back!, vent: null } };
    expect(saidOf(shut, "sealed")).toContain("the device is sealed");
    // There is nothing to ring down.
    expect(predictMicrophone(shut, brief, { frequencies: [1000], manner: "quick" }, []).time).toBeNull();
    expect(remarks(shut).map(({ code }) => code)).toContain("no-vent");
  });
});

describe("one damping ratio", () => {
  test("does not describe a hole and cavity that ring below the diaphragm, and the remark says what else is heard", () => {
    const found = remarks(base, "exact").find(({ code }) => code === "not-one-resonance");
    expect(found?.message).toMatch(/one damping ratio does not describe it.*Heard beside it/s);
  });
});

describe("out of the model's range", () => {
  const { across } = base.diaphragm;
  const strip: Microphone = {
    ...base,
    front: null,
    back: null,
    film: null,
    diaphragm: { ...base.diaphragm, along: 20 * across, lossFactor: 0 },
    guides: [{ ...base.guides[0], at: across / 2 - 2e-6, width: 10e-6 }],
  };
  const ofStrip = predictMicrophone(strip, { ...brief, loudest: null }, { frequencies: [1000] }, []);

  test("a long bare strip with its guide at the side: no damping, light over the frame, too few functions", () => {
    const said = (code: string) => ofStrip.remarks.filter((remark) => remark.code === code);
    expect(said("no-damping")).toMatchObject([
      { path: ["microphone"], message: expect.stringMatching(/no film, no loss factor.*not finite/) },
    ]);
    expect(said("guide-over-frame")).toMatchObject([
      {
        path: ["microphone", "guide", "at"],
        message: expect.stringMatching(/2\.0.µm from the side and 10.µm wide.*over the frame/),
      },
    ]);
    expect(said("not-resolved")).toMatchObject([
      {
        path: ["microphone", "diaphragm"],
        message: expect.stringMatching(/changes by 0\.0\d.*side ratio above about 10.*orders of magnitude/),
      },
    ]);
    expect(said("curve-not-converged")).toEqual([]);
  });

  test("a gap of few mean free paths, and a response of more resonances than its samples tell apart", () => {
    const air = { ...base.air, meanFreePath: 68e-9 };
    const film = { ...base.film!, gap: 8 * air.meanFreePath };
    const comb = (frequency: number) => complex(Math.tan(frequency / 50));
    const curve = sampleCurve(comb, { from: 10, to: 5000, floor: 1e-3, tolerance: 1e-7, most: 25 });
    const thin = { ...strip, air, film };
    expect(remarksOn(thin, { ...ofStrip, film: regimeOf(thin, 1000) }, curve)).toEqual(
      expect.arrayContaining([
        {
          code: "rarefied-film",
          path: ["microphone", "film", "gap"],
          message: expect.stringMatching(/Knudsen number 0\.1[23]: .*mean free path.*thermal jump is left out/),
        },
        {
          code: "curve-not-converged",
          path: ["response"],
          message: expect.stringMatching(/After 2\d samples.* is good to .+ only; .*solved one by one/),
        },
      ]),
    );
  });
});

test("cards say where the power goes, what the band hangs on, vibration and field", () => {
  const { cards } = predictMicrophone(
    { ...base, body: { shape: "cylinder", diameter: 0.02, length: null } },
    brief,
    { frequencies: [1000] },
    [],
  );
  const inputs = (key: string) => (cards[key]?.inputs ?? []).map(({ name, value }) => `${name}: ${value}`).join("\n");
  expect(inputs("losses")).toMatch(/film friction, at 1\.00.kHz: \d/);
  expect(inputs("parts")).toMatch(/front holes, of the energy: \d/);
  expect(inputs("parts")).toContain("vent corner");
  expect(inputs("vibration")).toContain("mass of the diaphragm: 0.1004 kg/m²");
  expect(cards["field"]?.formula).toContain("approximate");
});

describe("air in a passage", () => {
  test("moves as the pressure of the sound over its impedance says", () => {
    const open = { ...base, back: { ...base.back!, vent: { ...base.back!.vent!, exposed: true } } };
    const device = system(open);
    const omega = complex(2 * Math.PI * 20);
    setFrequency(device, omega);
    const vent = passagesIn(device, stateAt(device, omega, { sound: complex(1) })).at(-1)!;
    // Slow: Poiseuille's flow of 1 Pa, whose pressure behind hardly moves: pi r^4 / (8 mu l), over omega pi r^2.
    const slow = 50e-6 ** 2 / (8 * base.air.viscosity * (2e-3 * omega.re));
    expect(vent.path).toEqual(["microphone", "back", "vent"]);
    expect(vent.moved / slow).toBeGreaterThan(0.9);
    expect(vent.moved / slow).toBeLessThan(1.1);
    expect(vent.radius).toBe(50e-6);
  });

  test("that moves farther than half the width of front hole, vent, leak or back plate makes a jet", () => {
    const narrow: Microphone = {
      ...base,
      front: { holes: [{ ...base.front!.holes[0]!, diameter: 0.2e-3 }], cavity: base.front!.cavity },
      film: {
        ...base.film!,
        edges: { sides: "closed", ends: "closed" },
        backPlate: { kind: "holes", holes: { diameter: 5e-5, pitch: 1e-3, length: 1e-4, ends: "none" } },
      },
      back: {
        ...base.back!,
        vent: { shape: "slit", height: 4e-5, width: 1e-3, length: 1e-3, exposed: true },
        leak: { height: 2e-5, width: 1e-3, length: 1e-3, from: "front" },
      },
    };
    const loud = { ...brief, loudest: { ...brief.loudest, atLeastDb: 160, at: 300 } };
    const paths = jetRemarks(system(narrow), loud).map(({ code, path }) => `${code} ${path.slice(1).join(".")}`);
    expect(paths).toEqual([
      "jet-loss front.holes.0",
      "jet-loss back.vent",
      "jet-loss back.leak",
      "jet-loss film.backPlate.holes",
    ]);
    expect(jetRemarks(system(narrow), { ...loud, loudest: { ...loud.loudest, atLeastDb: 60 } })).toEqual([]);
    expect(jetRemarks(system(narrow), { ...loud, loudest: null })).toEqual([]);
  });
});
