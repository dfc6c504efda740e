/** Films of uneven gap under a plate that moves as a whole: closed forms of strips, quadrature, and squares by another program. */

import { settled } from "../src/core/microphone/rest/rest.ts";
import { coupledSystem, setFrequency } from "../src/core/microphone/system/coupled.ts";
import { prepare } from "../src/core/microphone/system/prepare.ts";
import { type Complex, complex, divide, multiply, subtract } from "../src/core/numerics/complex.ts";
import { holeImpedance } from "../src/core/parts/acoustics/tube.ts";
import { filmCoefficients } from "../src/core/parts/film/coefficients.ts";
import type { FilmEdge } from "../src/core/parts/film/film.ts";
import { rigidPlatePressure, rigidPlatePressureOver } from "../src/core/parts/film/rigidPlate.ts";
import { workedAir, workedMicrophone } from "./devices.ts";
import type { TruthRow } from "./row.ts";

/** Gap in the middle less that at the edge, and at the edge [m]; half a strip of 2 mm is 1 mm. */
const [edge, half] = [20e-6, 1e-3];

/** Air that hardly gives way, so that only the flow counts; friction or inertia alone where asked. */
const stiff = { ...workedAir, pressure: 1e15 };
const still = { ...stiff, density: 1e-9 };
const inviscid = { ...stiff, viscosity: 1e-25 };

/** A strip 2 mm wide, open along its sides: the same for all y between closed ends. */
function strip(height: (xi: number) => number, air: typeof stiff, frequency: number): Complex {
  return rigidPlatePressureOver({
    film: { gap: edge, edges: { sides: "open", ends: "closed" } },
    air,
    across: 2 * half,
    along: 2 * half,
    omega: complex(2 * Math.PI * frequency),
    terms: { across: 60, along: 1 },
    height,
    low: 60,
  });
}

/** Mean over the strip of what a slope p' = c x / f(h) makes of the pressure: c times integral of x^2 / f over half, over half. */
const roof = (rise: number) => {
  const [h1, h2] = [edge + rise, edge];
  const s = (h2 - h1) / half;
  const parts = (h: number) => Math.log(h) + (2 * h1) / h - h1 ** 2 / (2 * h ** 2);
  const flat = (h: number) => h ** 2 / 2 - 2 * h1 * h + h1 ** 2 * Math.log(h);
  return { cube: (parts(h2) - parts(h1)) / s ** 3 / half, once: (flat(h2) - flat(h1)) / s ** 3 / half };
};

/** integral of t^2 / (1 + e (1 - t^2))^3 over 0 .. 1, by 200 parabolas: 1e-12. */
const simpson = (f: (t: number) => number): number => {
  let sum = f(0) + f(1);
  for (let i = 1; i < 400; i++) sum += (i % 2 === 1 ? 4 : 2) * f(i / 400);
  return sum / 1200;
};

const omega = 2 * Math.PI * 10;
const resolved = "functions of the film: 60 across, all of which feel the gap";

/** Square of half side 1, all edges open or one pair closed: div(H^3 grad p) - i s H p = -1, H = 1 - e (1 - x^2)^2 (1 - y^2)^2. */
const squares: readonly (readonly [number, number, FilmEdge, number, number])[] = [
  [0.3, 0, "open", 0.16375094, 0],
  [0.6, 0, "open", 0.21110956, 0],
  [0.6, 20, "open", 0.01580981, -0.04764521],
  [-0.5, 20, "open", 0.01091367, -0.02878374],
  [0.6, 20, "closed", 0.01001697, -0.05575781],
];

const solved = new Map<string, Complex>();

function square(e: number, s: number, ends: FilmEdge): Complex {
  const key = [e, s, ends].join(" ");
  const known = solved.get(key);
  if (known) return known;
  // 12 mu = 1, half side 1, gap 1: h^3 / (12 mu) = H^3, and P0 such that omega / P0 = s; no inertia.
  const air = { ...workedAir, viscosity: 1 / 12, density: 1e-12, heatRatio: 1, pressure: s === 0 ? 1e15 : 1 / s };
  const p = rigidPlatePressureOver({
    film: { gap: 1, edges: { sides: "open", ends } },
    air,
    across: 2,
    along: 2,
    omega: complex(1),
    terms: { across: 60, along: 60 },
    height: (xi, eta) => -e * (1 - xi * xi) ** 2 * (1 - eta * eta) ** 2,
    low: 250,
  });
  // Per i omega w.
  const answer = { re: p.im, im: -p.re };
  solved.set(key, answer);
  return answer;
}

/** What the film between two rings costs a flow to a hole in the wall, times 2 pi Psi / ln 2 of the gap over the hole. */
function aroundHole(pressure: number): number {
  const omega = complex(2 * Math.PI * 1000);
  const spread = (diameter: number) => {
    const bare = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 20e-6 });
    const hole = { diameter, length: 0.5e-3, at: [0, 0], ends: "none" } as const;
    const edges = { sides: "closed", ends: "closed" } as const;
    const film = { ...bare.film!, edges, backPlate: { kind: "hole", hole } } as const;
    const stands = settled({ ...bare, film, load: { difference: pressure } });
    if (!stands.ok) throw new Error(stands.problems.map(({ message }) => message).join(" "));
    const microphone = stands.value;
    const system = coupledSystem(prepare(microphone), microphone);
    setFrequency(system, omega);
    const { across, along } = microphone.diaphragm;
    const flow = multiply(complex(0, (across * along * system.scales.deflection) / 4), omega);
    const through = holeImpedance({ ...hole, air: microphone.air, omega });
    const { gap, relief } = microphone.film!;
    return {
      film: subtract(divide(system.sink!.impedance, flow), through),
      psi: filmCoefficients({ gap: gap + (relief?.atHole ?? 0), air: microphone.air, omega }).psi,
    };
  };
  const [narrow, wide] = [spread(0.1e-3), spread(0.2e-3)];
  return (multiply(subtract(narrow.film, wide.film), narrow.psi).re * 2 * Math.PI) / Math.LN2;
}

export const rows: readonly TruthRow[] = [
  ...[0, 800, -800].map(
    (pressure): TruthRow => ({
      what: `film under a diaphragm bent by ${pressure} Pa, hole in the middle half as wide: more for the flow, 2 pi Psi / ln 2 of the gap there [-]`,
      got: () => aroundHole(pressure),
      expected: 1,
      within: pressure === 0 ? 1e-3 : 6e-3,
      why: "the outer ring is 0.2 mm wide, over which the gap changes a little, and holds a little air",
      origin: "exact",
      source: "radial flow between two rings, ln(R2 / R1) / (2 pi Psi)",
    }),
  ),
  ...[10e-6, -8e-6].map(
    (rise): TruthRow => ({
      what: `strip under a roof that rises by ${rise} m to its middle, friction alone: mean pressure per deflection [Pa/m]`,
      got: () => strip((xi) => rise * (1 - xi), still, 10).im,
      expected: 12 * workedAir.viscosity * omega * roof(rise).cube,
      within: 2e-5,
      why: resolved,
      origin: "exact",
      source:
        "Reynolds's equation of a taper in closed form, h^3 p' = 12 mu V x (as of the tapered slider, [hamrock-2004], from memory, derived here)",
    }),
  ),
  {
    what: "the same, inertia alone [Pa/m]",
    got: () => -strip((xi) => 10e-6 * (1 - xi), inviscid, 10).re,
    expected: workedAir.density * omega ** 2 * roof(10e-6).once,
    within: 2e-5,
    why: resolved,
    origin: "exact",
    source: "h p' = -rho omega^2 w x in closed form",
  },
  ...[0.5, -0.4].map(
    (e): TruthRow => ({
      what: `strip under a parabola, ${e} of the edge's gap higher in the middle, friction alone [Pa/m]`,
      got: () => strip((xi) => e * edge * (1 - xi * xi), still, 10).im,
      expected:
        ((12 * workedAir.viscosity * omega * half ** 2) / edge ** 3) *
        simpson((t) => t ** 2 / (1 + e * (1 - t * t)) ** 3),
      within: 2e-5,
      why: resolved,
      origin: "exact",
      source: "the one-dimensional equation, h^3 p' = 12 mu V x, by quadrature",
    }),
  ),
  ...(["re", "im"] as const).map(
    (part): TruthRow => ({
      what: `strip under a parabola 0.3 lower in the middle, friction and inertia alike (20 um at 30 kHz), ${part} [Pa/m]`,
      got: () => strip((xi) => -0.3 * edge * (1 - xi * xi), stiff, 30e3)[part],
      expected: (() => {
        const w = 2 * Math.PI * 30e3;
        const one = (t: number) =>
          filmCoefficients({ gap: edge * (1 - 0.3 * (1 - t * t)), air: stiff, omega: complex(w) }).psi;
        const over = (pick: (psi: Complex) => number) =>
          simpson((t) => (t ** 2 * pick(one(t))) / (one(t).re ** 2 + one(t).im ** 2));
        // i omega x / Psi: real part omega Im Psi / |Psi|^2, imaginary part omega Re Psi / |Psi|^2.
        return w * half ** 2 * (part === "re" ? over((psi) => psi.im) : over((psi) => psi.re));
      })(),
      within: 5e-5,
      why: `${resolved}; the polynomial through four gaps`,
      origin: "exact",
      source: "the one-dimensional equation, Psi(h) p' = -i omega w x, by quadrature",
    }),
  ),
  ...squares.flatMap(([e, s, ends, re, im]): TruthRow[] =>
    (["re", "im"] as const)
      .filter((part) => part === "re" || im !== 0)
      .map((part) => ({
        what: `square film ${e > 0 ? "pressed" : "drawn"} by ${Math.abs(e)} of its gap in the middle, ends ${ends}, squeeze number ${s}: mean pressure, ${part} [-]`,
        got: () => square(e, s, ends)[part],
        expected: part === "re" ? re : im,
        within: (5e-5 * Math.hypot(re, im)) / Math.abs(part === "re" ? re : im),
        why: "of the whole pressure; functions of the film: 60 a direction, 250 of which feel the gap",
        origin: "independent method" as const,
        source: "Galerkin in (1 - x^2) P_k, 16 a direction, gap and its cube by quadrature, another program",
      })),
  ),
  {
    what: "gap higher by the same everywhere, pressure against that of the higher gap [-]",
    got: () => {
      const given = {
        air: workedAir,
        across: 5e-3,
        along: 4e-3,
        omega: complex(2 * Math.PI * 3e3),
        terms: { across: 20, along: 20 },
      };
      const edges = { sides: "open", ends: "open" } as const;
      const higher = rigidPlatePressureOver({ ...given, film: { gap: 20e-6, edges }, height: () => 7e-6, low: 30 });
      const plain = rigidPlatePressure({ ...given, terms: 20, film: { gap: 27e-6, edges } });
      return Math.hypot(higher.re - plain.re, higher.im - plain.im) / Math.hypot(plain.re, plain.im);
    },
    expected: 0,
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: "a uniform change of gap is another gap",
  },
  {
    what: "closed film under a dome, slow: pressure over deflection, times the mean gap over the ambient pressure [-]",
    got: () => {
      const gap = 20e-6;
      const dome = (xi: number, eta: number) => -8e-6 * (1 - xi * xi) ** 2 * (1 - eta * eta) ** 2;
      const { re } = rigidPlatePressureOver({
        film: { gap, edges: { sides: "closed", ends: "closed" } },
        air: workedAir,
        across: 5e-3,
        along: 5e-3,
        omega: complex(2 * Math.PI * 1e-3),
        terms: { across: 8, along: 8 },
        height: dome,
        low: 30,
      });
      return (re * (gap - 8e-6 * (8 / 15) ** 2)) / workedAir.pressure;
    },
    expected: 1,
    within: 1e-6,
    why: "isothermal in the limit of slowness",
    origin: "exact",
    source: "an air spring knows its volume only",
  },
];
