import { expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { staticPlate } from "../../parts/diaphragm/statics.ts";
import { settled, unevenDamping } from "./rest.ts";

/** Mean of the plate's own shape over |grad p|^2, over its plain mean, by midpoints of a quarter; p = cos across, cos along if open. */
function flowShare(open: { readonly across: boolean; readonly along: boolean }): number {
  const side = 5e-3;
  const plate = staticPlate(workedMicrophone({ across: side, thickness: 30e-6, gap: null }).diaphragm, {
    functions: 8,
  });
  const count = 40;
  const wave = (wanted: boolean, u: number) =>
    wanted ? { value: Math.cos((Math.PI / 2) * u), slope: Math.sin((Math.PI / 2) * u) } : { value: 1, slope: 0 };
  let [weighted, weights, plain] = [0, 0, 0];
  for (let i = 0.5; i < count; i++) {
    for (let j = 0.5; j < count; j++) {
      const w = plate.deflection((side / 2) * (i / count), (side / 2) * (j / count));
      const [x, y] = [wave(open.across, i / count), wave(open.along, j / count)];
      const flow = (x.slope * y.value) ** 2 + (x.value * y.slope) ** 2;
      weighted += w * flow;
      weights += flow;
      plain += w;
    }
  }
  return (weighted / weights / plain) * count ** 2;
}

test("an uneven film is judged by the plate's own shape where the air flows", () => {
  const film = (sides: "open" | "closed", ends: "open" | "closed") => ({ gap: 1, edges: { sides, ends } });
  // 3 (1 - share) m / (1 - m), m small.
  const share = (of: ReturnType<typeof film>) => 1 - unevenDamping(of, 1e-9) / 3e-9;
  expect(Math.abs(share(film("open", "open")) - flowShare({ across: true, along: true }))).toBeLessThan(0.005);
  expect(Math.abs(share(film("open", "closed")) - flowShare({ across: true, along: false }))).toBeLessThan(0.005);
  expect(unevenDamping(film("closed", "closed"), 0.1)).toBe(0);
});

test("an uneven film is said, with what its mean gap, where that is still taken, does to the damping", () => {
  const said = (difference: number) => {
    const microphone = { ...workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 20e-6 }), load: { difference } };
    const stands = settled(microphone);
    return stands.ok ? stands.remarks.find(({ code }) => code === "uneven-gap")?.message : undefined;
  };
  expect(said(1500)).toContain("too strongly");
  expect(said(1500)).toContain("with the gap of each place. The loudest");
  expect(said(3800)).toContain("So near the wall");
  expect(said(-1500)).toContain("too weakly");
  expect(said(100)).toBeUndefined();
});
