/** What the site does to the device: buckling, dew, dust, a diaphragm pressed to the wall. */

import type { Microphone } from "../../microphone/microphone.ts";
import { bucklingStep } from "../../microphone/rest/buckling.ts";
import type { Problem } from "../../problem.ts";
import type { Brief } from "../../project/brief.ts";
import { formatQuantity } from "../../quantity/format.ts";
import { siteDew } from "./siteDew.ts";

/** Remarks: `buckles-at-site`, `dew-at-site`, `dust-at-site`, `meets-wall`. `deflection`: of the center [m/Pa]. */
export const siteRemarks = (
  microphone: Microphone,
  brief: Pick<Brief, "site" | "loudest">,
  known: { readonly deflection: number; readonly contact: number | null },
): readonly Problem[] => [
  ...buckling(microphone, brief),
  ...dew(microphone, brief),
  ...dust(microphone, brief),
  ...wall(microphone, brief, known),
];

/** What water closes: a film, and holes that its own surface holds it in. */
function dew({ film, back }: Microphone, { site }: Pick<Brief, "site">): readonly Problem[] {
  const found = siteDew(site);
  if (found === null || found.point <= found.coldest || !(film || back)) return [];
  const shown = (value: number) => formatQuantity(value, "temperature", { digits: 3 });
  return [
    {
      code: "dew-at-site",
      path: ["brief", "site", "humidity"],
      message: `The most humid air of the site has its dew point at ${shown(found.point)}; where it is ${shown(found.coldest)}, water condenses: it wets the film and closes a vent, which is not in the answer. Keep the inside dry, or the device warmer than the air.`,
    },
  ];
}

/** Dust of the size that cases are tested with goes into the hole and stays [m]. */
const dusty = 0.2e-3;

function dust({ back, film }: Microphone, { site }: Pick<Brief, "site">): readonly Problem[] {
  if (!site.precautions.includes("outdoors")) return [];
  const vent = back?.vent;
  const size = vent ? (vent.shape === "slit" ? vent.height : vent.diameter) : null;
  const holes = film?.backPlate?.kind === "holes" ? film.backPlate.holes.diameter : null;
  const narrow = [
    { path: ["microphone", "back", "vent"], size },
    { path: ["microphone", "film", "backPlate", "holes"], size: holes },
  ];
  return narrow.flatMap(({ path, size }) =>
    size === null || size >= dusty
      ? []
      : [
          {
            code: "dust-at-site",
            path,
            message: `Outdoors a passage of ${formatQuantity(size, "length", { digits: 2 })} is closed by dust sooner or later; the answer is for a clean one. Put a mesh before it, make it wider and longer, or plan to clean it.`,
          },
        ],
  );
}

/** By the loudest sound asked for, or by the site's overpressure while the vent is blocked. */
function wall(
  { film, load }: Microphone,
  { site, loudest }: Pick<Brief, "site" | "loudest">,
  { deflection, contact }: { readonly deflection: number; readonly contact: number | null },
): readonly Problem[] {
  if (!film) return [];
  const asked = loudest?.atLeastDb ?? null;
  const path = ["microphone", "film", "gap"];
  const found: Problem[] = [];
  if (asked !== null && contact !== null && asked >= contact)
    found.push({
      code: "meets-wall",
      path,
      message: `The loudest sound asked for is ${formatQuantity(asked, "decibel", { digits: 3 })}; from ${formatQuantity(contact, "decibel", { digits: 3 })} on the diaphragm meets the wall behind the film. Widen the gap or stiffen the diaphragm.`,
    });
  const room = load?.settled ? (load.settled.gap ?? film.gap) - load.settled.center : film.gap;
  const over = site.staticOverpressure;
  // Straight on: beyond its thickness a plate gives way less.
  if (over !== null && Math.abs(deflection) * over >= room)
    found.push({
      code: "meets-wall",
      path,
      message: `With the vent blocked, the site's overpressure of ${formatQuantity(over, "pressure", { digits: 3 })} bends the diaphragm by ${formatQuantity(Math.abs(deflection) * over, "length", { digits: 2 })} if it bends on in a straight line, as far as the film is thick: it lies on the wall, which keeps it from breaking or breaks it, by how even the wall is.`,
    });
  return found;
}

function buckling({ diaphragm, air }: Microphone, { site }: Pick<Brief, "site">): readonly Problem[] {
  if (!diaphragm.tensionPerKelvin || !site.temperature) return [];
  return site.temperature.flatMap((temperature) => {
    const step = bucklingStep(diaphragm, temperature - air.temperature);
    if (step === null) return [];
    const shown = (value: number) => formatQuantity(value, "temperature", { digits: 3 });
    return [
      {
        code: "buckles-at-site",
        path: ["brief", "site", "temperature"],
        message: `On the way to ${shown(temperature)} the diaphragm buckles at ${shown(air.temperature + step)}: its frame expands unlike the sheet. It works at ${shown(air.temperature)}, not over the whole range. Match the materials, bond at another temperature, or give the sheet tension.`,
      },
    ];
  });
}
