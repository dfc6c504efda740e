/** Where moist air begins to condense. */
import { type AirState, vaporFraction } from "./humidAir.ts";

/** Temperature at which the same vapor saturates [K], by halving; pressure as given. Source: [cipm-2007] by `vaporFraction`. */
export function dewPoint({ temperature, pressure, humidity }: AirState): number {
  const vapor = vaporFraction({ temperature, pressure, humidity });
  let [low, high] = [200, temperature];
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (vaporFraction({ temperature: middle, pressure, humidity: 1 }) > vapor) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
