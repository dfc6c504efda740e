/** What the parts of a device are called where a number is shared out among them. */
import type { Energies, Influence, Losses } from "../../core/tasks/predict/prediction.ts";

export const lossWords: Readonly<Record<keyof Losses, string>> = {
  structure: "the diaphragm's own loss",
  filmFriction: "friction in the film",
  filmHeat: "heat in the film",
  wall: "holes of the back plate",
  frontHoles: "front holes",
  frontCavity: "wall of the front cavity",
  backCavity: "wall of the back cavity",
  vent: "vent",
  leak: "leak",
  radiation: "sound sent out",
};

export const energyWords: Readonly<Record<keyof Energies, string>> = {
  plate: "diaphragm",
  film: "film",
  wall: "back plate",
  frontHoles: "front holes",
  frontCavity: "front cavity",
  backCavity: "back cavity",
  vents: "vent",
  outside: "air outside",
};

export const influenceWords: Readonly<Record<Influence["part"], string>> = {
  plate: "the diaphragm's mass",
  film: "the film's gap",
  wall: "the back plate's openings",
  frontHoles: "the front holes",
  frontCavity: "the front cavity",
  backCavity: "the back cavity",
  vent: "the vent",
  leak: "the leak",
};

/** "friction in the film 94 %, wall of the front cavity 6 %": shares of at least 1 %, the largest first, three at most. */
export function sharesText<Part extends string>(
  shares: Readonly<Record<Part, number>>,
  words: Readonly<Record<Part, string>>,
): string {
  const parts = (Object.keys(shares) as Part[]).filter((part) => shares[part] >= 0.01);
  return parts
    .sort((a, b) => shares[b] - shares[a])
    .slice(0, 3)
    .map((part) => `${words[part]} ${Math.round(100 * shares[part])} %`)
    .join(", ");
}
