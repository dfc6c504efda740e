/** A mass on a stiffening spring in a film whose friction follows its gap, moved by a tone and stepped in time by Runge and Kutta. */

export interface MassInFilm {
  /** Mass and stiffness, per area [kg/m2, Pa/m]. */
  readonly mass: number;
  readonly stiffness: number;
  /** Pull with the cube of the deflection [Pa/m3]. */
  readonly cubic: number;
  /** [Pa s/m] */
  readonly friction: number;
  /** Share of the gap that a deflection of 1 m takes away [1/m]. */
  readonly closing: number;
}

export interface Tone {
  /** [Pa] and [rad/s] */
  readonly pressure: number;
  readonly omega: number;
}

/** Deflection [m] over the last of so many periods, at so many even places, with so many steps from one to the next. */
export function lastPeriod(
  { mass, stiffness, cubic, friction, closing }: MassInFilm,
  { pressure, omega }: Tone,
  { periods, samples, fine }: { readonly periods: number; readonly samples: number; readonly fine: number },
): Float64Array {
  const h = (2 * Math.PI) / omega / (samples * fine);
  const pull = (w: number, v: number, t: number) =>
    (pressure * Math.cos(omega * t) - stiffness * w - cubic * w ** 3 - (friction * v) / (1 - closing * w) ** 3) / mass;
  let [w, v] = [0, 0];
  const period = new Float64Array(samples);
  for (let i = 0; i < periods * samples * fine; i++) {
    const at = i - (periods - 1) * samples * fine;
    if (at >= 0 && at % fine === 0) period[at / fine] = w;
    const t = i * h;
    const a1 = pull(w, v, t);
    const a2 = pull(w + (h / 2) * v, v + (h / 2) * a1, t + h / 2);
    const a3 = pull(w + (h / 2) * v + (h * h * a1) / 4, v + (h / 2) * a2, t + h / 2);
    const a4 = pull(w + h * v + (h * h * a2) / 2, v + h * a3, t + h);
    w += h * v + (h * h * (a1 + a2 + a3)) / 6;
    v += (h * (a1 + 2 * a2 + 2 * a3 + a4)) / 6;
  }
  return period;
}
