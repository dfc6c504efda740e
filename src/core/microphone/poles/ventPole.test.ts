import { expect, test } from "vitest";
import { readBrief } from "../../project/brief.ts";
import { describe as describeProject } from "../../project/describe.ts";
import { loadProject } from "../../project/load.ts";
import { judge } from "../../tasks/predict/judge.ts";
import { predict } from "../../tasks/predict/predict.ts";
import { isVentPole } from "./ventPole.ts";

const project = (vent: string) => {
  const loaded = loadProject(
    `{"format":"glassdrum-project","version":1,"microphone":{"diaphragm":{"across":"5 mm","along":"5 mm","thickness":"30 um","lossFactor":0.01},"guide":{"at":"2.4 mm"},"back":{"cavity":{"volume":"500 mm^3","surface":"500 mm^2"},"vent":${vent}}}}`,
  );
  if (!loaded.ok) throw new Error(loaded.problems[0]?.message);
  return loaded.value;
};
const narrow = '{"shape":"round","diameter":"0.1 mm","length":"3 mm","exposed":true}';

test("a vent that sound reaches makes a slow pole of the volume behind, which is not called the resonance", () => {
  const answered = predict(project(narrow), { frequencies: [1000] });
  if (!answered.ok) throw new Error(answered.problems[0]?.message);
  const { resonance, decays } = answered.value;
  // 8 mu l / (pi r^4) = 2.22e10 Pa s/m3 with 18.2 uPa s (from memory) and P0 / V = 2.03e11 Pa/m3: 9.1 1/s, end corrections aside.
  expect(decays[0]?.rate ?? 0).toBeGreaterThan(0.85 * 9.1);
  expect(decays[0]?.rate ?? 0).toBeLessThan(1.02 * 9.1);
  expect(decays[0]?.partner).toBeNull();
  expect(resonance.overdamped).toBe(false);
  expect(resonance.frequency ?? 0).toBeGreaterThan(9000);
});

test("nor do the quick verdicts of Chart and Spread", () => {
  const loaded = project(narrow);
  const described = describeProject(loaded);
  if (!described.ok) throw new Error(described.problems[0]?.message);
  const judged = judge(described.value, readBrief(loaded));
  if (!judged.ok) throw new Error(judged.problems[0]?.message);
  expect(judged.value.measures.resonance ?? 0).toBeGreaterThan(9000);
});

test("a rate far from that of the vent is another one's, and so is any without a vent", () => {
  const described = [narrow, "null"].map((vent) => describeProject(project(vent)));
  const [vented, sealed] = described.map((one) => (one.ok ? one.value : null));
  expect([9, 90, 0.9].map((rate) => isVentPole(vented!, rate))).toEqual([true, false, false]);
  expect(isVentPole(sealed!, 9)).toBe(false);
});
