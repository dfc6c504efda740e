/** Labels that move out of each other's way and never lie on a curve. */

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Wanted {
  readonly text: string;
  /** Written instead where there is no free place for all of it. */
  readonly shorter?: string;
  /** What is labeled [px]. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  /** Sides to try, best first: where the label lies seen from the point. */
  readonly sides: readonly Side[];
  /** Further points that the label may lie at, for something larger than a point. */
  readonly also?: readonly { readonly x: number; readonly y: number }[];
  /** No other sides than these; false where absent. */
  readonly onlySides?: boolean;
  /** Whether a label that had to move away is joined to its point; true where absent. */
  readonly joined?: boolean;
}

/** Joins a label that lies away from its point to it [px]. */
export interface Leader {
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
}

export type Side = "right" | "left" | "above" | "below" | "above-right" | "above-left" | "below-right" | "below-left";

export interface Placed {
  readonly text: string;
  /** Left end of the baseline [px]. */
  readonly x: number;
  readonly y: number;
  readonly box: Box;
  /** null: near enough to be understood. */
  readonly leader: Leader | null;
}

/** A line as drawn [px]; null: a gap. */
export type Trace = readonly ({ readonly x: number; readonly y: number } | null)[];

const everySide: readonly Side[] = [
  "right",
  "above-right",
  "below-right",
  "above-left",
  "below-left",
  "left",
  "above",
  "below",
];
/** Distances to try from the point [px]. */
const distances = [8, 16, 28, 44, 64, 90, 120];
/** Air between a label and anything else [px]. */
const air = 3;

/**
 * Places labels one after the other: the first place inside `frame` that lies on no trace, no label and none of the `taken`
 * boxes; where there is none, the place that lies on the least.
 */
export function placeLabels(
  wanted: readonly Wanted[],
  {
    frame,
    traces,
    taken = [],
  }: { readonly frame: Box; readonly traces: readonly Trace[]; readonly taken?: readonly Box[] },
): Placed[] {
  const placed: Placed[] = [];
  for (const label of wanted) {
    const boxes = [...taken, ...placed.map(({ box }) => box)];
    let best: { place: Placed; cost: number } | null = null;
    for (const text of [label.text, ...(label.shorter === undefined ? [] : [label.shorter])]) {
      if (best?.cost === 0) break;
      for (const place of candidates({ ...label, text }, frame)) {
        const cost = costOf(place.box, frame, traces, boxes) + crossedLeaders(place, placed);
        if (best === null || cost < best.cost) best = { place, cost };
        if (cost === 0) break;
      }
    }
    if (best !== null) placed.push(best.place);
  }
  return placed;
}

function* candidates(label: Wanted, frame: Box): Generator<Placed> {
  const width = textWidth(label.text, label.size);
  const others = label.onlySides === true ? [] : everySide.filter((side) => !label.sides.includes(side));
  const sides = [...label.sides, ...others];
  const points = [{ x: label.x, y: label.y }, ...(label.also ?? [])];
  for (const distance of distances)
    for (const point of points)
      for (const side of sides) yield at({ ...label, ...point }, side, distance, width, frame);
}

function at(
  { text, x, y, size, joined = true }: Wanted,
  side: Side,
  distance: number,
  width: number,
  frame: Box,
): Placed {
  const diagonal = side.includes("-");
  const reach = diagonal ? distance / Math.SQRT2 : distance;
  // A diagonal label stays close beside its point however far above or below it has to go.
  const aside = diagonal ? Math.min(reach, 8) : reach;
  const wished = side.includes("right") ? x + aside : side.includes("left") ? x - aside - width : x - width / 2;
  // Above and below a label may slide along to stay inside.
  const slides = side.startsWith("above") || side.startsWith("below");
  const left = slides ? Math.max(Math.min(wished, frame.right - width), frame.left) : wished;
  const middle = side.includes("above") ? y - reach - size / 2 : side.includes("below") ? y + reach + size / 2 : y;
  const box = { left, right: left + width, top: middle - size * 0.6, bottom: middle + size * 0.6 };
  return { text, x: left, y: middle + size * 0.36, box, leader: joined ? leaderOf(box, x, y) : null };
}

/** From the nearest point of the box, where that is not near. */
function leaderOf(box: Box, x: number, y: number): Leader | null {
  const from = {
    x: Math.min(Math.max(x, box.left), box.right),
    y: Math.min(Math.max(y, box.top), box.bottom),
  };
  const length = Math.hypot(from.x - x, from.y - y);
  if (length < 14) return null;
  // Ends at the rim of the dot.
  const share = 1 - 5 / length;
  return { from, to: { x: from.x + (x - from.x) * share, y: from.y + (y - from.y) * share } };
}

/** Leaving the frame is worse than lying on something. */
function costOf(box: Box, frame: Box, traces: readonly Trace[], boxes: readonly Box[]): number {
  const outside =
    Math.max(frame.left - box.left, 0) +
    Math.max(box.right - frame.right, 0) +
    Math.max(frame.top - box.top, 0) +
    Math.max(box.bottom - frame.bottom, 0);
  const covered = boxes.filter((other) => overlap(box, other)).length;
  const crossed = traces.reduce((sum, trace) => sum + crossings(box, trace), 0);
  return outside * 100 + covered * 50 + (crossed > 0 ? 40 + crossed : 0);
}

/** A leader that crosses another one misleads. */
function crossedLeaders({ leader, box }: Placed, placed: readonly Placed[]): number {
  return (
    placed.filter(
      (other) =>
        (leader !== null && touches(other.box, leader.from, leader.to)) ||
        (other.leader !== null && touches(box, other.leader.from, other.leader.to)) ||
        (leader !== null && other.leader !== null && cross(leader, other.leader)),
    ).length * 20
  );
}

/** Whether two segments cross: the ends of each lie on both sides of the other. */
function cross(a: Leader, b: Leader): boolean {
  type Point = Leader["from"];
  const turn = (p: Point, q: Point, r: Point) => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  return (
    turn(a.from, a.to, b.from) * turn(a.from, a.to, b.to) < 0 &&
    turn(b.from, b.to, a.from) * turn(b.from, b.to, a.to) < 0
  );
}

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right + air && b.left < a.right + air && a.top < b.bottom + air && b.top < a.bottom + air;

/** Segments of the trace that touch the box. */
function crossings(box: Box, trace: Trace): number {
  let count = 0;
  for (let i = 1; i < trace.length; i++) {
    const [from, to] = [trace[i - 1], trace[i]];
    if (from && to && touches(box, from, to)) count += 1;
  }
  return count;
}

/** Whether a segment meets the box with its air: clipped by its four sides in turn (Liang and Barsky). */
function touches(box: Box, from: { x: number; y: number }, to: { x: number; y: number }): boolean {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  let [enter, leave] = [0, 1];
  for (const [speed, room] of [
    [-dx, from.x - (box.left - air)],
    [dx, box.right + air - from.x],
    [-dy, from.y - (box.top - air)],
    [dy, box.bottom + air - from.y],
  ] as const) {
    if (speed === 0) {
      if (room < 0) return false;
      continue;
    }
    const share = room / speed;
    if (speed < 0) enter = Math.max(enter, share);
    else leave = Math.min(leave, share);
    if (enter > leave) return false;
  }
  return true;
}

/** Width of a text in Inter [px], estimated a little wide: no page is at hand to measure it. */
export function textWidth(text: string, size: number): number {
  let ems = 0;
  for (const sign of text) ems += widthOf(sign);
  return ems * size;
}

function widthOf(sign: string): number {
  if (/[\s.,:;'|!il]/.test(sign)) return 0.3;
  if (/[0-9+−=<>±]/.test(sign)) return 0.66;
  if (/[mwMW@%]/.test(sign)) return 0.92;
  return /[A-Z]/.test(sign) ? 0.7 : 0.6;
}
