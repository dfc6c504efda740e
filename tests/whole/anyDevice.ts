/** Project files with any combination of parts, drawn from a seed: the same ones every time. */
import { describe, loadProject } from "../../src/core/index.ts";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { settled } from "../../src/core/microphone/rest/rest.ts";
import { seededUniform } from "../../src/core/numerics/random.ts";
import { bendingStiffness } from "../../src/core/parts/diaphragm/shape.ts";
import { staticPlate } from "../../src/core/parts/diaphragm/statics.ts";

export interface AnyDevice {
  /** The project file: what a failing test should show. */
  readonly text: string;
  readonly microphone: Microphone;
}

/** `count` devices; the project files are read and described as any other is. */
export const anyDevices = (count: number, seed: number): readonly AnyDevice[] =>
  Array.from({ length: count }, (_, i) => anyDevice(seed * 10_000 + i));

export function anyDevice(seed: number): AnyDevice {
  const text = JSON.stringify(drawn(seededUniform(seed)));
  const loaded = loadProject(text);
  if (!loaded.ok) throw new Error(`Seed ${seed} is no project: ${JSON.stringify(loaded.problems)}\n${text}`);
  const described = describe(loaded.value);
  if (!described.ok) throw new Error(`Seed ${seed} is no microphone: ${JSON.stringify(described.problems)}\n${text}`);
  return { text, microphone: described.value };
}

/**
 * The same device bent at rest: by a pressure from either side, up to a third of the film's gap and half the thickness, and every
 * other one also by a moment of its layers, which counts where edges turn.
 */
export function anyBentDevice(seed: number): AnyDevice {
  const { text, microphone } = anyDevice(seed);
  const uniform = seededUniform(seed + 0.5);
  const { diaphragm, film } = microphone;
  const { thickness, across } = diaphragm;
  const far = Math.min(0.5 * thickness, film ? film.gap / 3 : Number.POSITIVE_INFINITY);
  const share = 2 * uniform() - 1;
  const moment = ((2 * uniform() - 1) * bendingStiffness(diaphragm).d11 * far) / across ** 2;
  const standing = settled({
    ...microphone,
    diaphragm: seed % 2 === 0 ? diaphragm : { ...diaphragm, moment: { across: moment, along: -0.6 * moment } },
    load: { difference: (share * far) / staticPlate(diaphragm, { functions: 6 }).deflection(0, 0) },
  });
  if (!standing.ok) throw new Error(`Seed ${seed} does not stand: ${JSON.stringify(standing.problems)}\n${text}`);
  return { text: `bent by ${share} of ${far} m, moment ${moment} N: ${text}`, microphone: standing.value };
}

function drawn(uniform: () => number) {
  const between = (low: number, high: number) => low * (high / low) ** uniform();
  const mm = (value: number) => `${value.toPrecision(6)} mm`;
  const um = (value: number) => `${value.toPrecision(6)} um`;
  const oneOf = <T>(...all: readonly T[]): T => all[Math.min(all.length - 1, Math.floor(uniform() * all.length))]!;
  const maybe = <T>(make: () => T): T | null => (uniform() < 0.7 ? make() : null);
  const across = between(2, 10);
  const along = across * between(0.5, 2);
  const thickness = between(0.004, 0.02) * across * 1e3;
  // Glass, a wafer under a layer of glass for the guide, an orthotropic sheet under another.
  const layer = { material: "thin-borosilicate", thickness: um(0.15 * thickness) };
  const sheet = oneOf<{ readonly material: unknown; readonly layers: readonly unknown[] }>(
    { material: "fused-silica", layers: [] },
    { material: "soda-lime", layers: [] },
    { material: "silicon-100-110", layers: [layer] },
    { material: orthotropic, layers: [layer] },
  );
  const edge = () => oneOf<unknown>("clamped", "supported", { rotation: `${between(0.01, 30).toPrecision(4)} N` });
  const ends = () => oneOf("piston", "flanged", "free", "none");
  const place = (side: number) => mm((0.6 * uniform() - 0.3) * side);
  const hole = (low: number, high: number) => ({
    diameter: mm(between(low, high) * Math.min(across, along)),
    length: mm(between(0.1, 2)),
    at: oneOf<readonly string[]>(["0 mm", "0 mm"], [place(across), place(along)]),
    ends: ends(),
  });
  const cavity = (low: number, high: number) => {
    const volume = between(low, high);
    return {
      volume: `${volume.toPrecision(5)} mm^3`,
      surface: `${(between(5, 12) * volume ** (2 / 3)).toPrecision(5)} mm^2`,
    };
  };
  const backPlate = () =>
    oneOf<() => unknown>(
      () => {
        const pitch = between(0.3, 1);
        return {
          holes: {
            diameter: mm(pitch * between(0.1, 0.6)),
            pitch: mm(pitch),
            length: mm(between(0.1, 1)),
            ends: ends(),
          },
        };
      },
      () => ({ hole: hole(0.02, 0.3) }),
      () => ({ admittance: `${between(1e-6, 1e-3).toPrecision(3)} m/(Pa s)` }),
    )();
  const leak = () => ({
    height: um(between(1, 20)),
    width: mm(between(0.5, 4)),
    length: mm(between(0.3, 2)),
    from: oneOf("front", "outside"),
  });
  const round = () => ({ shape: "round", diameter: mm(between(0.03, 0.4)), length: mm(between(0.5, 4)) });
  const slit = () => ({
    shape: "slit",
    height: um(between(5, 60)),
    width: mm(between(0.3, 2)),
    length: mm(between(0.5, 4)),
  });
  const vent = () => ({ ...oneOf<() => object>(round, slit)(), exposed: oneOf(true, false) });
  const frontCavity = maybe(() => cavity(3, 60));
  const hasFront = uniform() < 0.6;
  const backCavity = maybe(() => cavity(30, 3000));
  return {
    format: "glassdrum-project",
    version: 1,
    air: oneOf<unknown>({}, { temperature: "50 degC", pressure: "700 hPa" }, { meanFreePath: "0 nm" }),
    microphone: {
      diaphragm: {
        material: sheet.material,
        layers: sheet.layers,
        across: mm(across),
        along: mm(along),
        thickness: um(thickness),
        edges: oneOf<unknown>(edge(), { sides: edge(), ends: edge() }),
        tension: oneOf<unknown>(null, {
          across: `${between(1, 100).toPrecision(4)} N/m`,
          along: `${between(1, 100).toPrecision(4)} N/m`,
        }),
        lossFactor: oneOf(0, 0, 1e-3, 0.02),
      },
      guide: { at: mm((uniform() - 0.5) * 0.999 * across), face: "front", depth: um(0.1 * thickness), width: null },
      film: maybe(() => ({
        gap: um(between(8, 150)),
        edges: oneOf<unknown>("open", "closed", { sides: "open", ends: "closed" }),
        backPlate: maybe(backPlate),
      })),
      front: hasFront
        ? {
            holes:
              frontCavity === null
                ? [hole(0.05, 0.6)]
                : oneOf(
                    [],
                    [hole(0.05, 0.4)],
                    [
                      { ...hole(0.05, 0.2), at: [mm(-0.2 * across), "0 mm"] },
                      { ...hole(0.05, 0.2), at: [mm(0.2 * across), "0 mm"] },
                    ],
                  ),
            cavity: frontCavity,
          }
        : null,
      back: maybe(() => {
        const [v, l] = [maybe(vent), maybe(leak)];
        const shut = backCavity === null && v === null && l === null;
        return { cavity: shut ? cavity(30, 3000) : backCavity, vent: v, leak: l };
      }),
      body: maybe(() => ({ shape: oneOf("sphere", "cylinder"), diameter: mm(1.5 * Math.hypot(across, along)) })),
    },
  };
}

/** An orthotropic sheet, stiffer along. */
const orthotropic = {
  stiffness: { q11: "60 GPa", q12: "9 GPa", q22: "110 GPa", q66: "21 GPa" },
  density: "2600 kg/m^3",
};
