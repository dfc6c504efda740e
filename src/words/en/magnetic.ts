/**
 * What a strong magnet does to materials of a laboratory. Common practice, from memory: batches differ, cold work and plating
 * change it, so that a part is tested and not looked up.
 */
export interface MagneticMaterial {
  readonly material: string;
  readonly where: string;
  readonly does: string;
}

export const magneticWords = {
  title: "Materials near a magnet",
  note: "Common practice, from memory. Test each part, plating and cold work included; a list marks nothing as safe.",
} as const;

export const magneticMaterials: readonly MagneticMaterial[] = [
  {
    material: "steel, iron, ferritic and martensitic stainless steel",
    where: "screws, springs in fiber connectors, optical posts, tools, reinforced concrete",
    does: "pulled with full force, flies",
  },
  {
    material: "nickel, cobalt, and alloys for glass seals and of low expansion",
    where: "plating under gold, connector shells, sealed detectors, frames matched to glass",
    does: "pulled",
  },
  {
    material: "ferrite, permanent magnets, magnetic shields",
    where: "loudspeakers, isolators behind lasers, chokes, cable clamps, latches",
    does: "pulled or turned, and changed for good",
  },
  {
    material: "austenitic stainless steel",
    where: "tubes, screws, armor of cables",
    does: "hardly pulled when annealed, pulled when bent, drawn or welded",
  },
  {
    material: "aluminum, copper, brass, bronze, titanium",
    where: "holders, housings, coatings of fibers, braids",
    does: "not pulled; braked and heated by currents where the field changes or the part moves",
  },
  {
    material: "glass, silica, silicon, alumina, zirconia, polymers, glue",
    where: "the device itself, ferrules, frames, tubes",
    does: "not pulled in practice; fillers and pigments may be",
  },
];
