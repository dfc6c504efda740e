/** The text behind each number: formula, what went in, source. Pages and `predict --json` show the same. */
import type { Microphone } from "../../microphone/microphone.ts";
import { isBowed } from "../../parts/diaphragm/diaphragm.ts";
import { bendingStiffness, plateScales, plateShape } from "../../parts/diaphragm/shape.ts";
import { guideBending } from "../../parts/guide/readings.ts";
import { formatNumber, formatQuantity } from "../../quantity/format.ts";
import type { Card, Prediction } from "./prediction.ts";

export function cardsOf(
  microphone: Microphone,
  known: Pick<Prediction, "straightness" | "bias">,
): Readonly<Record<string, Card>> {
  const { diaphragm, guides, light, readout, air, film, load } = microphone;
  const [guide] = guides;
  const { d11 } = bendingStiffness(diaphragm);
  const shape = plateShape(diaphragm);
  const scales = plateScales(diaphragm);
  const phase = guideBending({ guide, wavelength: light.wavelength, diaphragm });
  const length = (value: number) => formatQuantity(value, "length", { digits: 4 });
  const number = (value: number) => formatNumber(value, { digits: 4 });
  const degrees = (value: number) => formatQuantity(value, "angle", { digits: 4 });
  const plate = [
    { name: "across a", value: length(diaphragm.across) },
    { name: "along b", value: length(diaphragm.along) },
    { name: "thickness h", value: length(diaphragm.thickness) },
    { name: "bending stiffness D11", value: `${number(d11)} N m` },
    { name: "mass per area", value: `${number(scales.mass)} kg/m²` },
  ];
  const stressed = shape.tensionAcross !== 0 || shape.tensionAlong !== 0;
  const tension = stressed
    ? [
        {
          name: "tension N a² / D11, across and along",
          value: `${number(shape.tensionAcross)}, ${number(shape.tensionAlong)}`,
        },
      ]
    : [];
  const optics = [
    { name: "guide at x", value: length(guide.at) },
    { name: "face, depth d", value: `${guide.face}, ${length(guide.depth)}` },
    { name: "wavelength", value: length(light.wavelength) },
    { name: "index n", value: number(guide.optics.index) },
    { name: "p11 − p12", value: number(guide.optics.p11 - guide.optics.p12) },
    { name: "phase per mean curvature across", value: `${number(phase.xx)} rad m` },
  ];
  const airInputs = [
    { name: "density", value: formatQuantity(air.density, "density") },
    { name: "viscosity", value: formatQuantity(air.viscosity, "viscosity") },
    { name: "ratio of specific heats", value: number(air.heatRatio) },
    { name: "Prandtl number", value: number(air.prandtl) },
    { name: "mean free path", value: length(air.meanFreePath) },
  ];
  const filmInputs = film ? [{ name: "gap g", value: length(film.gap) }, ...airInputs] : [];
  return {
    staticSensitivity: {
      title: "Static sensitivity of the plate alone",
      formula: "φ / q = (π n³ / λ) (p11 − p12) (−z) b (⟨w_xx⟩ + ν ⟨w_yy⟩) / ((1 − ν) q)",
      inputs: [...plate, ...tension, ...optics],
      source: "docs/theory/phase.md; plate by polynomial Galerkin, checked against [timoshenko-1959] and [leissa-1973]",
    },
    response: {
      title: "Response S(f)",
      formula: "[(1 + iη) K_b + K_t − ω² M + Z(ω)] q = F p;  φ = c · q",
      inputs: [
        ...plate,
        ...tension,
        ...optics,
        ...filmInputs,
        { name: "loss factor η", value: number(diaphragm.lossFactor) },
      ],
      source: "docs/theory/coupled.md; film after [zwikker-kosten-1949], [tijdeman-1975], [beltman-1999]",
    },
    resonance: {
      title: "Resonance and damping ratio",
      formula: "det A(ω_p) = 0;  f = |ω_p| / 2π,  ζ = Im ω_p / |ω_p|",
      inputs: [...plate, ...tension, ...filmInputs],
      source: "docs/theory/poles.md",
    },
    band: {
      title: "Band",
      formula: "|20 log₁₀(|S(f)| / |S(f_ref)|)| ≤ within",
      inputs: [],
      source: "definition; edges bisected on the computed response",
    },
    bestGuide: {
      title: "Best guide position",
      formula: "x at which |⟨w_xx⟩ + ν ⟨w_yy⟩| is largest",
      inputs: [...plate, ...tension],
      source: "docs/theory/phase.md; the clamped edge of a square gives 3.03 times its center",
    },
    straightness: {
      title: "Straightness",
      formula: "φ(p) = k₁ p + k₂ p² + k₃ p³ + …;  k₂ from ⟨ε_x0⟩, ⟨ε_y0⟩ = ⟨w_y²⟩ / 2,  k₃ from stiffening",
      inputs: [...straightInputs(known.straightness), ...plate, ...tension, ...optics],
      source:
        "docs/theory/largeDeflection.md; von Karman's plate, edges that the frame holds, checked against [levy-1942]",
    },
    bias: {
      title: "Phase before any sound",
      formula:
        "φ₀ = (2π / λ) (B + C σ_x) L,  C = n³ (p11 − p12) (1 + ν) / (2 E);  dφ₀/dT = (2π / λ) (dB/dT + B α) L + stress",
      inputs: [
        ...biasInputs(known.bias),
        ...optics,
        { name: "birefringence B = n_TM − n_TE", value: number(guide.birefringence) },
        { name: "length between the polarizers L", value: length(guide.length) },
        {
          name: "stress across, along",
          value: guide.builtIn
            ? `${formatQuantity(guide.builtIn.stress.across, "modulus", { digits: 3 })}, ${formatQuantity(guide.builtIn.stress.along, "modulus", { digits: 3 })}`
            : "none",
        },
      ],
      source: "docs/theory/photoelasticPhase.md, docs/theory/readout.md",
    },
    transfer: {
      title: "Transfer curve and slope",
      formula: "P(φ) = |u + v e^{−iφ}|² = offset + a cos(φ + angle);  slope = −a sin(bias + angle)",
      inputs: [
        { name: "kind, outputs", value: `${readout.kind}, ${readout.outputs}` },
        {
          name: "polarizer, analyzer",
          value: `${degrees(readout.polarizer.angle)}, ${degrees(readout.analyzer.angle)}`,
        },
        { name: "their leaks", value: `${number(readout.polarizer.leak)}, ${number(readout.analyzer.leak)}` },
        { name: "power of TM over TE", value: number(readout.powerRatio) },
        { name: "other loss of contrast", value: number(readout.visibility) },
      ],
      source: "docs/theory/readout.md; Jones calculus [jones-1941]",
    },
    ...(guide.modes && {
      guideModes: {
        title: "Modes of the guide",
        formula: "∇×(1/ε ∇×H) − (1/ε) ∇(∇·H) + (N²/ε) H = H,  main component;  d = ∫ z E² / ∫ E²",
        inputs: [
          { name: "wavelength", value: length(light.wavelength) },
          { name: "index of the glass", value: number(guide.optics.index) },
          { name: "N of TE, TM", value: `${guide.modes.te.index.toFixed(6)}, ${guide.modes.tm.index.toFixed(6)}` },
          { name: "depth of TE, TM", value: `${length(guide.modes.te.depth)}, ${length(guide.modes.tm.depth)}` },
        ],
        source: "docs/theory/modes.md; checked against exact slabs, graded profiles and a round fiber",
      },
    }),
    ...(load?.settled && {
      staticLoad: {
        title: "State at rest",
        formula:
          "K w + membrane force(w) = p₀ + moment of stressed layers on the edges' slopes;  sound: K_b + K_t + K_m about it;  gap g − w at each place",
        inputs: [
          { name: "pressure in front less that behind", value: formatQuantity(load.difference, "pressure") },
          ...(isBowed(diaphragm) && diaphragm.moment
            ? [
                {
                  name: "moment of the layers' stress across, along",
                  value: `${number(diaphragm.moment.across)} N, ${number(diaphragm.moment.along)} N`,
                },
              ]
            : []),
          { name: "deflection at the center", value: length(load.settled.center) },
          { name: "mean deflection", value: length(load.settled.mean) },
          ...plate,
        ],
        source: "docs/theory/staticLoad.md, docs/theory/laminate.md",
      },
    }),
    ...(film && {
      film: {
        title: "Air film",
        formula: "Ψ ∇²p − χ p = −iω w;  Ψ = g (1 − tanh k / k) / (iω ρ₀),  k = (g/2) √(iω ρ₀ / µ)",
        inputs: filmInputs,
        source: "docs/theory/film.md; slip after [veijola-1995]",
      },
    }),
  };
}

type Inputs = Card["inputs"];

/** What was found, for a reader of the card; nothing in a quick answer. */
function straightInputs(straight: Prediction["straightness"]): Inputs {
  if (straight === null) return [];
  const { frequency, leavesLine, leavesLineLevel, distorted, distortedLevel, limit } = straight;
  const at = formatQuantity(frequency, "frequency");
  const shown = (pressure: number | null, level: number | null | undefined) => {
    if (pressure === null) return "beyond the pressures looked at";
    const sound =
      level === null || level === undefined
        ? ""
        : `, sound of ${formatQuantity(level, "decibel", { digits: 4 })} at ${at}`;
    return `${formatQuantity(pressure, "pressure", { digits: 3 })} across the diaphragm${sound}`;
  };
  return [
    { name: "off the straight line by 1 % at", value: shown(leavesLine, leavesLineLevel) },
    ...distorted.map(({ share, pressure }, i) => ({
      name: `distortion of the phase ${formatNumber(100 * share, { digits: 1 })} % at`,
      value: shown(pressure, distortedLevel[i]),
    })),
    ...(limit === null
      ? []
      : [{ name: "made by", value: limit === "stretch" ? "stretch, the even harmonics" : "stiffening, the odd ones" }]),
  ];
}

function biasInputs(bias: Prediction["bias"]): Inputs {
  const radian = (value: number) => `${formatNumber(value, { digits: 3 })} rad`;
  return bias.flatMap(({ stress, stressPerKelvin, load }, i) => {
    const of = bias.length > 1 ? ` of guide ${i + 1}` : "";
    return [
      { name: `phase${of} from built-in stress`, value: `${radian(stress)}, ${radian(stressPerKelvin)} a kelvin` },
      ...(load === 0 ? [] : [{ name: `phase${of} from the shape at rest`, value: radian(load) }]),
    ];
  });
}
