/** The data sets of numbers in an HDF5 container, as tables. */
import { unitAlone } from "./headings.ts";

export interface ContainerColumn {
  /** Its own name, without the group's; "" for a column of a larger set. */
  readonly name: string;
  readonly heading: string;
  /** As the attributes say; null: they don't. */
  readonly unit: string | null;
  readonly values: Float64Array;
}

export interface ContainerSet {
  /** "/run1/phase"; of sets side by side, the group: "/run1". */
  readonly path: string;
  readonly rows: number;
  readonly columns: readonly ContainerColumn[];
  /** "96 kHz"; null: no attribute says it. */
  readonly sampling: string | null;
}

export type Hdf5 = typeof import("h5wasm");
type Group = InstanceType<Hdf5["Group"]>;
type Dataset = InstanceType<Hdf5["Dataset"]>;

/** Two axes at most, of numbers, the longer one being the time. Sets of one column and equal length in one group are one table. */
export function setsOf(group: Group, path: string, hdf5: Hdf5): ContainerSet[] {
  const inner: ContainerSet[] = [];
  const single: ContainerSet[] = [];
  const around = attributesOf(group);
  for (const key of group.keys()) {
    const entity = group.get(key);
    const here = `${path}/${key}`;
    if (entity instanceof hdf5.Group) inner.push(...setsOf(entity, here, hdf5));
    else if (entity instanceof hdf5.Dataset) {
      const set = setOf(entity, here, key, samplingFrom(around));
      if (set !== null) (set.columns.length === 1 ? single : inner).push(set);
    }
  }
  const lengths = [...new Set(single.map(({ rows }) => rows))];
  for (const rows of lengths) {
    const alike = single.filter((set) => set.rows === rows);
    const [first] = alike;
    if (alike.length === 1) inner.push(first!);
    else
      inner.push({
        path: lengths.length === 1 ? path || "/" : `${path}/* of ${rows}`,
        rows,
        columns: alike.flatMap(({ columns }) => columns),
        sampling: alike.find(({ sampling }) => sampling !== null)?.sampling ?? null,
      });
  }
  return inner;
}

type Attributes = (name: string) => string | null;

const attributesOf =
  ({ attrs }: Group | Dataset): Attributes =>
  (name) => {
    const found = attrs[name]?.value;
    return typeof found === "string" || typeof found === "number" ? String(found) : null;
  };

/** "96 kHz" from `sampling`, or from `step` in seconds. */
function samplingFrom(attribute: Attributes): string | null {
  const step = Number(attribute("step") ?? Number.NaN);
  const rate = attribute("sampling") ?? (step > 0 ? String(1 / step) : null);
  if (rate === null) return null;
  return /[a-z]/i.test(rate.replace(/\de[+-]?\d/i, "")) ? rate : `${rate} Hz`;
}

function setOf(entity: Dataset, path: string, name: string, around: string | null): ContainerSet | null {
  const { value, shape } = entity;
  if (!ArrayBuffer.isView(value) || value instanceof DataView || shape === null) return null;
  if (shape.length === 0 || shape.length > 2) return null;
  const numbers = value as unknown as ArrayLike<number | bigint>;
  const [first = 0, second = 1] = shape;
  if (Math.max(first, second) < 2) return null;
  const byRow = second > first;
  const [rows, width] = byRow ? [second, first] : [first, second];
  const at = (row: number, column: number) => Number(numbers[byRow ? column * rows + row : row * width + column]);
  const attribute = attributesOf(entity);
  const unit = unitAlone(attribute("unit") ?? attribute("units") ?? "");
  return {
    path,
    rows,
    columns: Array.from({ length: width }, (_, column) => ({
      name: width === 1 ? name : "",
      heading: width === 1 ? path : `${path} ${column + 1}`,
      unit,
      values: Float64Array.from({ length: rows }, (__, row) => at(row, column)),
    })),
    sampling: samplingFrom(attribute) ?? around,
  };
}
