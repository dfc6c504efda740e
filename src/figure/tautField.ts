/**
 * A grid between its points, with its zero line where the points leave it open.
 *
 * Each cell is two triangles, cut along the diagonal whose ends differ less, so that a narrow ridge across the cells stays one. Where
 * the values go straight, the zero line cuts the sides of the triangles at straight shares. Where they jump or bend (a resonance that
 * stops ringing, a band that breaks in two), the points say only that the line passes somewhere between two of them: there it may move
 * along the side, as far as what lies before and behind that side disagrees, and is pulled tight like a string. No point changes sides.
 */
import type { Grid, IsoLine } from "./isoLines.ts";

export interface TautField {
  /** The value at a place; null: beside a point without a value. */
  readonly valueAt: (column: number, row: number) => number | null;
  /** The zero line. */
  readonly lines: readonly IsoLine[];
}

/** Where the zero line cuts a side of a triangle. */
interface Cut {
  /** Ends of the side: column, row. */
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Share of the way from the one to the other: now, least, most. */
  share: number;
  readonly least: number;
  readonly most: number;
  /** The next cuts, one in each triangle beside the side. */
  readonly beside: Cut[];
}

type Triangle = readonly [a: number, b: number, c: number];

/** A cut keeps off the points by this share of a side: a line through a point would have no side. */
const off = 0.02;
/** A string of a hundred sides lies still after about so many pulls. */
const pulls = 60;

export function tautField({ columns, rows, values }: Grid): TautField {
  const cuts = new Map<number, Cut>();
  const place = (at: number): readonly [number, number] => [at % columns, Math.floor(at / columns)];
  const pointAt = (column: number, row: number): number | null =>
    column < 0 || row < 0 || column >= columns || row >= rows ? null : (values[row * columns + column] ?? null);
  const cutOf = (one: number, other: number): Cut | null => {
    const [from, to] = one < other ? [one, other] : [other, one];
    const [a, b] = [values[from], values[to]];
    if (a == null || b == null || a >= 0 === b >= 0) return null;
    const key = from * values.length + to;
    const known = cuts.get(key);
    if (known !== undefined) return known;
    const [start, end] = [place(from), place(to)];
    const step = [end[0] - start[0], end[1] - start[1]] as const;
    const before = pointAt(start[0] - step[0], start[1] - step[1]);
    const behind = pointAt(end[0] + step[0], end[1] + step[1]);
    const cut: Cut = { from: start, to: end, ...shareOf(a, b, before, behind), beside: [] };
    cuts.set(key, cut);
    return cut;
  };
  const halves = (i: number, j: number): readonly [Triangle, Triangle] | null => {
    const at = j * columns + i;
    const [a, b, c, d] = [at, at + 1, at + columns, at + columns + 1];
    const [va, vb, vc, vd] = [values[a], values[b], values[c], values[d]];
    if (va == null || vb == null || vc == null || vd == null) return null;
    // The half at the low right, or low left, first.
    return Math.abs(va - vd) <= Math.abs(vb - vc)
      ? [
          [a, b, d],
          [a, d, c],
        ]
      : [
          [b, c, a],
          [b, d, c],
        ];
  };
  for (let j = 0; j + 1 < rows; j++)
    for (let i = 0; i + 1 < columns; i++)
      for (const [a, b, c] of halves(i, j) ?? []) {
        const [one, other] = [cutOf(a, b), cutOf(b, c), cutOf(c, a)].filter((cut) => cut !== null);
        if (one === undefined || other === undefined) continue;
        one.beside.push(other);
        other.beside.push(one);
      }
  for (let pull = 0; pull < pulls; pull++) if (!pulled(cuts.values())) break;
  const valueAt = (column: number, row: number): number | null => {
    const [i, j] = [Math.min(columns - 2, Math.floor(column)), Math.min(rows - 2, Math.floor(row))];
    const at = j * columns + i;
    const [a, b, c, d] = [values[at], values[at + 1], values[at + columns], values[at + columns + 1]];
    if (a == null || b == null || c == null || d == null) return null;
    const [u, v] = [column - i, row - j];
    const falling = Math.abs(a - d) <= Math.abs(b - c);
    const first = falling ? u >= v : u + v <= 1;
    if (a >= 0 !== b >= 0 || a >= 0 !== c >= 0 || a >= 0 !== d >= 0) {
      const triangle = halves(i, j)?.[first ? 0 : 1];
      const past = triangle && valueAcross(triangle, { values, place, cutOf }, [column, row]);
      if (past != null) return past;
    }
    if (falling) return first ? a + u * (b - a) + v * (d - b) : a + v * (c - a) + u * (d - c);
    return first ? a + u * (b - a) + v * (c - a) : d + (1 - u) * (c - d) + (1 - v) * (b - d);
  };
  return { valueAt, lines: linesThrough([...cuts.values()]) };
}

/** Cut after cut: first the lines that end somewhere, then the rings. */
function linesThrough(cuts: readonly Cut[]): readonly IsoLine[] {
  const done = new Set<Cut>();
  const lines: IsoLine[] = [];
  for (const start of [...cuts.filter(({ beside }) => beside.length === 1), ...cuts]) {
    if (done.has(start) || start.beside.length === 0) continue;
    const line: Cut[] = [];
    for (let cut: Cut | undefined = start; cut !== undefined; cut = cut.beside.find((next) => !done.has(next))) {
      done.add(cut);
      line.push(cut);
    }
    const ring = line.length > 2 && line.at(-1)!.beside.includes(start);
    lines.push([...line, ...(ring ? [start] : [])].map(pointOf));
  }
  return lines;
}

/** Straight share, and the range in which the values before and behind a side would have the line. */
function shareOf(a: number, b: number, before: number | null, behind: number | null) {
  const within = (share: number) => Math.min(1 - off, Math.max(off, share));
  const straight = within(a / (a - b));
  // A side that does not go toward zero says: not before the other end.
  const onward = before === null ? straight : (before - a) * a > 0 ? within(a / (before - a)) : 1 - off;
  const back = behind === null ? straight : (behind - b) * b > 0 ? within(1 - b / (behind - b)) : off;
  return { share: straight, least: Math.min(straight, onward, back), most: Math.max(straight, onward, back) };
}

const pointOf = ({ from, to, share }: Cut): readonly [number, number] => [
  from[0] + (to[0] - from[0]) * share,
  from[1] + (to[1] - from[1]) * share,
];

/** Moves every cut to where the straight way past its neighbors crosses its side; whether anything moved. */
function pulled(cuts: Iterable<Cut>): boolean {
  let moved = false;
  for (const cut of cuts) {
    if (cut.most - cut.least < 1e-6) continue;
    const [before] = cut.beside;
    // The last cut of a line goes on as the two before it go.
    const behind = cut.beside[1] ?? before?.beside.find((next) => next !== cut);
    if (before === undefined || behind === undefined) continue;
    const [p, q] = [pointOf(before), pointOf(behind)];
    const [dx, dy] = [cut.to[0] - cut.from[0], cut.to[1] - cut.from[1]];
    const [wx, wy] = [q[0] - p[0], q[1] - p[1]];
    const across = dx * wy - dy * wx;
    if (Math.abs(across) < 1e-9) continue;
    const wished = ((p[0] - cut.from[0]) * wy - (p[1] - cut.from[1]) * wx) / across;
    const share = Math.min(cut.most, Math.max(cut.least, wished));
    if (Math.abs(share - cut.share) > 1e-4) moved = true;
    cut.share = share;
  }
  return moved;
}

/** Linear from a corner to the line that cuts it off, and on from there to the other two; null: no line cuts it. */
function valueAcross(
  triangle: Triangle,
  {
    values,
    place,
    cutOf,
  }: {
    readonly values: Grid["values"];
    readonly place: (at: number) => readonly [number, number];
    readonly cutOf: (one: number, other: number) => Cut | null;
  },
  [column, row]: readonly [number, number],
): number | null {
  const met = triangle.map((at) => (values[at] ?? 0) >= 0);
  // The corner that is alone on its side.
  const alone = met[0] === met[1] ? 2 : met[0] === met[2] ? 1 : 0;
  const [a, b, c] = [triangle[alone]!, triangle[(alone + 1) % 3]!, triangle[(alone + 2) % 3]!];
  const [onB, onC] = [cutOf(a, b), cutOf(a, c)];
  if (onB === null || onC === null) return null;
  const [pa, pb, pc] = [place(a), place(b), place(c)];
  const area = (pb[0] - pa[0]) * (pc[1] - pa[1]) - (pb[1] - pa[1]) * (pc[0] - pa[0]);
  const toB = ((column - pa[0]) * (pc[1] - pa[1]) - (row - pa[1]) * (pc[0] - pa[0])) / area;
  const toC = ((pb[0] - pa[0]) * (row - pa[1]) - (pb[1] - pa[1]) * (column - pa[0])) / area;
  const [s, t] = [a < b ? onB.share : 1 - onB.share, a < c ? onC.share : 1 - onC.share];
  const past = toB / s + toC / t - 1;
  const [va, vb, vc] = [values[a] ?? 0, values[b] ?? 0, values[c] ?? 0];
  if (past <= 0) return -past * va;
  return (past * ((toB * vb * s) / (1 - s) + (toC * vc * t) / (1 - t))) / (toB + toC);
}
