/** One guide of a project in SI: its place and depth as given, or from its modes. */
import type { Diaphragm } from "../parts/diaphragm/diaphragm.ts";
import { isBuckled } from "../parts/diaphragm/modes.ts";
import { exchangedForce } from "../parts/guide/exchange.ts";
import type { BuiltIn, Guide, GuideOptics } from "../parts/guide/guide.ts";
import { type GuideModes, guideModes, isModes, type NoModes } from "../parts/guide/guideModes.ts";
import type { Readout } from "../parts/readout/readout.ts";
import { answer, type Outcome, type Path, type Problem, refuse } from "../problem.ts";
import { formatNumber, formatQuantity } from "../quantity/format.ts";
import { needed } from "./defaults.ts";
import type { GuideInSi } from "./microphoneInSi.ts";
import { deepeningTemperature, type Made, profileOf } from "./profileOf.ts";

interface Surroundings {
  readonly optics: GuideOptics;
  readonly builtIn: BuiltIn;
  /** Free expansion of the guide's material [1/K]; null: not known, then its length does not change. */
  readonly expansion: number | null;
  /** Null where it is not known: then what needs it is not checked. */
  readonly diaphragm: Diaphragm | null;
  readonly thickness: number;
  readonly wavelength: number;
  readonly kind: Readout["kind"];
  /** Mode that an interferometer reads. */
  readonly arm: "TE" | "TM";
}

/**
 * The guide. A depth wins over a profile, and a profile over a process; width and birefringence that are given win over the modes'.
 *
 * Problems: `missing-value`, `no-guided-mode`, `leaks-into-cover`, `guide-too-deep`, `arm-in-crystal`.
 * Remarks: `several-modes`, `mode-meets-other-face`, `film-thinner-than-mode`, `exchange-buckles`, `exchange-stresses`,
 * `heat-changes-guide`, `diffusion-from-memory`.
 */
export function guideOf(guide: GuideInSi, around: Surroundings, path: Path): Outcome<Guide> {
  const { optics, builtIn } = around;
  if (around.kind === "interferometric" && optics.weights !== undefined) return refuse(armInCrystal(path));
  const common = {
    at: guide.at ?? 0,
    face: guide.face ?? ("front" as const),
    length: needed(guide.length, "guide.length"),
    weight: needed(guide.weight, "guide.weight"),
    ...(guide.birefringencePerKelvin !== undefined && { birefringencePerKelvin: guide.birefringencePerKelvin }),
    ...(around.expansion !== null && { expansion: around.expansion }),
    ...(around.kind === "interferometric" && { arm: around.arm }),
    optics,
    ...(isStressed(builtIn) && { builtIn }),
  };
  if (guide.depth !== undefined) {
    const birefringence = needed(guide.birefringence, "guide.birefringence");
    return answer({ ...common, depth: guide.depth, width: guide.width ?? null, birefringence });
  }
  const made = profileOf(guide, path);
  if (!made.ok) return made;
  if (made.value === null) throw new Error("guideOf: a guide without depth, profile and process has a default depth");
  const found = guideModes(made.value.profile, optics.index, around.wavelength);
  const key = [...path, guide.profile ? "profile" : "process"];
  if (!isModes(found)) return refuse(noModes(found, around.wavelength, key));
  const { te, tm } = found;
  const depth = (te.depth + tm.depth) / 2;
  if (depth >= around.thickness) return refuse(tooDeep(depth, around.thickness, key));
  const widths = guide.width === undefined ? { te: te.width, tm: tm.width } : { te: guide.width, tm: guide.width };
  return answer(
    {
      ...common,
      depth,
      width: guide.width === undefined ? (te.width + tm.width) / 2 : guide.width,
      birefringence: guide.birefringence ?? tm.index - te.index,
      modes: {
        te: { index: te.index, depth: te.depth, width: widths.te },
        tm: { index: tm.index, depth: tm.depth, width: widths.tm },
      },
    },
    [...made.remarks, ...modeRemarks(found, made.value, around, key), ...exchangeRemarks(made.value, around, key)],
  );
}

const isStressed = ({ strain, strainPerKelvin }: BuiltIn): boolean =>
  [strain.x, strain.y, strainPerKelvin.x, strainPerKelvin.y].some((value) => value !== 0);

const length = (value: number) => formatQuantity(value, "length", { digits: 3 });

const armInCrystal = (path: Path): Problem => ({
  code: "arm-in-crystal",
  path: ["microphone", "readout", "kind"],
  message: `An interferometer reads one mode of ${path.length > 2 ? "a guide" : "the guide"}, and in a crystal only the difference of both is computed. Take "polarimetric", or name the glass that the guide lies in as guide.material.`,
});

const tooDeep = (depth: number, thickness: number, path: Path): Problem => ({
  code: "guide-too-deep",
  path,
  message: `The mode lies ${length(depth)} deep in a diaphragm of ${length(thickness)}. Needed: a guide that lies in the glass: make it shallower, or the diaphragm thicker.`,
});

function noModes(found: NoModes, wavelength: number, path: Path): Problem {
  if (found.kind === "cover")
    return {
      code: "leaks-into-cover",
      path,
      message: `The cover has the index ${formatNumber(found.cover)} and the guide at most ${formatNumber(found.highest)}: light leaves into the cover. Needed: a cover of lower index.`,
    };
  return {
    code: "no-guided-mode",
    path,
    message: `This guide holds no ${found.polarization} mode at ${length(wavelength)}. Make it deeper or wider, raise its index, or shorten the wavelength.`,
  };
}

function modeRemarks({ te, tm, count }: GuideModes, made: Made, around: Surroundings, path: Path): Problem[] {
  const remarks: Problem[] = [];
  if (Math.max(count.te, count.tm) > 1)
    remarks.push({
      code: "several-modes",
      path,
      message: `The guide holds ${count.te} TE and ${count.tm} TM modes at ${length(around.wavelength)}: they beat, and each has its own depth. Numbers are those of the lowest. Make it shallower or narrower.`,
    });
  const reach = Math.max(te.depth + te.height / 2, tm.depth + tm.height / 2);
  if (reach > around.thickness)
    remarks.push({
      code: "mode-meets-other-face",
      path,
      message: `The light reaches ${length(reach)} deep in a diaphragm of ${length(around.thickness)}: it meets the other face, which the modes here do not know.`,
    });
  if (made.profile.kind === "layered") {
    const stack = made.profile.layers.reduce((sum, { thickness }) => sum + thickness, 0);
    if (Math.max(te.depth, tm.depth) > stack)
      remarks.push({
        code: "film-thinner-than-mode",
        path,
        message: `The layers are ${length(stack)} thick and the light lies ${length(te.depth)} (TE), ${length(tm.depth)} (TM) deep: most of it runs in the glass under them.`,
      });
  }
  return remarks;
}

function exchangeRemarks({ exchange, profile }: Made, { diaphragm }: Surroundings, path: Path): Problem[] {
  if (exchange === null || profile.kind === "layered") return [];
  const remarks: Problem[] = [];
  const soft = deepeningTemperature(exchange);
  if (soft !== null)
    remarks.push({
      code: "heat-changes-guide",
      path,
      message: `An hour at ${formatQuantity(soft, "temperature", { digits: 3 })} deepens this profile by one per cent, and heat relaxes the stress that makes its index and its birefringence. Exchange before the bond; keep later steps cooler.`,
    });
  if (!exchange.everywhere || exchange.stress === null || diaphragm === null) return remarks;
  const force = exchangedForce(exchange.stress, profile.depth);
  const { tension } = diaphragm;
  const pressed = { across: tension.across - force, along: tension.along - force };
  const said = `An exchange over the whole face at ${formatQuantity(exchange.stress, "modulus", { digits: 2 })} presses the diaphragm with ${formatQuantity(force, "tension", { digits: 2 })}`;
  return [
    ...remarks,
    isBuckled({ ...diaphragm, tension: pressed }, 8)
      ? {
          code: "exchange-buckles",
          path,
          message: `${said}: it buckles. Mask all but the guide, exchange both faces alike, or make the diaphragm thicker.`,
        }
      : {
          code: "exchange-stresses",
          path,
          message: `${said}. It is not counted in the tension here: give it in diaphragm.tension as well.`,
        },
  ];
}
