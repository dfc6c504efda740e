/** What the temperatures of the site do to a diaphragm that its frame holds. */
import { bucklingStep } from "../../microphone/buckling.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import type { Problem } from "../../problem.ts";
import type { Brief } from "../../project/brief.ts";
import { formatQuantity } from "../../quantity/format.ts";

/** Remarks: `buckles-at-site`. */
export function siteRemarks({ diaphragm, air }: Microphone, { site }: Pick<Brief, "site">): readonly Problem[] {
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
