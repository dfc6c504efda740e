/**
 * Values of the described microphone that stand there alone: setting one leaves every other number right. Values that others
 * follow from (thickness and tension of a framed sheet, a guide's depth and the layer around it, wavelength and index, the state
 * of the air) vary through `vary`.
 */
import type { Microphone } from "../microphone/microphone.ts";
import type { Edge } from "../parts/diaphragm/diaphragm.ts";
import type { Guide } from "../parts/guide/guide.ts";
import type { Steps } from "./lookUp.ts";

/** One number of a microphone, in SI. */
export interface Lens {
  /** null: it is not there (no film, a clamped edge, a guide without width). */
  readonly get: (microphone: Microphone) => number | null;
  /** Without a place for the value (no film, no such guide) the microphone stays as it is. */
  readonly set: (microphone: Microphone, value: number) => Microphone;
}

const inDiaphragm = (key: "across" | "along" | "lossFactor"): Lens => ({
  get: ({ diaphragm }) => diaphragm[key],
  set: (microphone, value) => ({ ...microphone, diaphragm: { ...microphone.diaphragm, [key]: value } }),
});

const rotationOf = (edge: Edge) => (typeof edge === "string" ? null : edge.rotation);

function rotation(pairs: readonly ("sides" | "ends")[]): Lens {
  return {
    get: ({ diaphragm }) => {
      const [first = null, second = first] = pairs.map((pair) => rotationOf(diaphragm.edges[pair]));
      return first === second ? first : null;
    },
    set: (microphone, value) => {
      const turned = Object.fromEntries(pairs.map((pair) => [pair, { rotation: value }]));
      const edges = { ...microphone.diaphragm.edges, ...turned };
      return { ...microphone, diaphragm: { ...microphone.diaphragm, edges } };
    },
  };
}

/** The guide with one number of one's own; in place of a width that the modes gave, it is that of both. */
function withNumber(guide: Guide, key: GuideKey, value: number): Guide {
  const { modes, ...own } = guide;
  const keepsModes = modes !== undefined && key !== "width";
  return { ...own, ...(keepsModes && { modes }), [key]: value };
}

type GuideKey = "at" | "width" | "length" | "weight" | "birefringence";

function inGuide(key: GuideKey, index: number): Lens {
  return {
    get: ({ guides }) => guides[index]?.[key] ?? null,
    set: (microphone, value) => {
      const [first, ...others] = microphone.guides.map(
        (guide, i): Guide => (i === index ? withNumber(guide, key, value) : guide),
      );
      return first === undefined ? microphone : { ...microphone, guides: [first, ...others] };
    },
  };
}

const gap: Lens = {
  get: ({ film }) => film?.gap ?? null,
  set: (microphone, value) =>
    microphone.film === null ? microphone : { ...microphone, film: { ...microphone.film, gap: value } },
};

/** The lens of a path of the project, or null where the value does not stand alone in the microphone. */
export function lensOf(steps: Steps): Lens | null {
  const [top, part, ...rest] = steps;
  if (top !== "microphone") return null;
  if (part === "film") return rest.length === 1 && rest[0] === "gap" ? gap : null;
  if (part === "guide") {
    const index = typeof rest[0] === "number" ? rest[0] : 0;
    const [key, ...more] = typeof rest[0] === "number" ? rest.slice(1) : rest;
    if (more.length > 0) return null;
    if (key === "at" || key === "width" || key === "length") return inGuide(key, index);
    return key === "weight" || key === "birefringence" ? inGuide(key, index) : null;
  }
  if (part !== "diaphragm") return null;
  const key = rest.join(".");
  if (key === "across" || key === "along" || key === "lossFactor") return inDiaphragm(key);
  if (key === "edges.rotation") return rotation(["sides", "ends"]);
  if (key === "edges.sides.rotation") return rotation(["sides"]);
  return key === "edges.ends.rotation" ? rotation(["ends"]) : null;
}
