import { dewPoint } from "../../material/dewPoint.ts";
import type { Brief } from "../../project/brief.ts";

/** Dew point of the warmest, most humid air of a site [K], and its coldest temperature [K]; null where no ranges are given. */
export function siteDew(site: Brief["site"]): { readonly point: number; readonly coldest: number } | null {
  if (!site.temperature || !site.humidity) return null;
  const pressure = site.pressure?.[1] ?? 101325;
  return {
    point: dewPoint({ temperature: site.temperature[1], pressure, humidity: site.humidity[1] }),
    coldest: site.temperature[0],
  };
}
