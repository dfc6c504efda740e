/** Lines of equal value on a grid that is even on both axes of the picture. */
import { contours } from "d3-contour";

/** Grid coordinates: 0 is the first value of an axis, n - 1 the last. */
export type IsoLine = readonly (readonly [column: number, row: number])[];

/** A grid, row-major; null: no value there. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly values: readonly (number | null)[];
}

/**
 * Lines at a level. Take the logarithm of what is drawn over logarithmic axes first: a power law is then met exactly between the
 * points. Rings that the library closes along the border, or round points without a value, are cut open there.
 */
export function isoLines({ columns, rows, values }: Grid, level: number): readonly IsoLine[] {
  const lowest = values.reduce<number>((least, value) => (value === null ? least : Math.min(least, value)), level) - 1;
  const filled = values.map((value) => value ?? lowest);
  const known = (column: number, row: number) => {
    const [i, j] = [Math.floor(column), Math.floor(row)];
    for (const a of [i, Math.min(i + 1, columns - 1)])
      for (const b of [j, Math.min(j + 1, rows - 1)]) if (values[b * columns + a] === null) return false;
    return true;
  };
  const [shape] = contours().size([columns, rows]).smooth(true).thresholds([level])(filled as number[]);
  const lines: [number, number][][] = [];
  for (const polygon of shape?.coordinates ?? [])
    for (const ring of polygon) {
      let line: [number, number][] = [];
      const end = () => {
        if (line.length > 1) lines.push(line);
        line = [];
      };
      for (const [x = 0, y = 0] of ring) {
        // The library counts from the corner of a cell, half a step before its value.
        const [column, row] = [x - 0.5, y - 0.5];
        const inside = column >= 0 && row >= 0 && column <= columns - 1 && row <= rows - 1 && known(column, row);
        if (inside) line.push([column, row]);
        else end();
      }
      end();
    }
  return lines;
}

/** The region at or above a level as closed rings; what has no value lies outside. */
export function isoRegion({ columns, rows, values }: Grid, level: number): readonly IsoLine[] {
  const outside = level - 1;
  const filled = values.map((value) => (value === null ? outside : Math.max(outside, value)));
  const [shape] = contours().size([columns, rows]).smooth(true).thresholds([level])(filled);
  const clamp = (value: number, most: number) => Math.min(most, Math.max(0, value));
  return (shape?.coordinates ?? []).flatMap((polygon) =>
    polygon.map((ring) =>
      ring.map(([x = 0, y = 0]) => [clamp(x - 0.5, columns - 1), clamp(y - 0.5, rows - 1)] as const),
    ),
  );
}
