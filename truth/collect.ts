/** Finds the rows: every truth/*.truth.ts exports `rows`. */
import { readdirSync } from "node:fs";
import { rowError, type TruthRow } from "./row.ts";

export interface TruthFile {
  /** "plate" for plate.truth.ts. */
  readonly name: string;
  readonly rows: readonly TruthRow[];
  /** Why the file could not be read; null: it was. */
  readonly broken: string | null;
}

export interface RowResult {
  readonly row: TruthRow;
  /** Null where ours threw or is not finite: the row fails. */
  readonly got: number | null;
  /** As `within` counts it; null without a value. */
  readonly error: number | null;
  readonly passed: boolean;
  /** What ours threw, in words; null: nothing. */
  readonly thrown: string | null;
}

const folder = new URL("./", import.meta.url);
const words = (thrown: unknown) => (thrown instanceof Error ? thrown.message : String(thrown));

/** All truth files, in order of name. A file that can't be imported, or holds no rows, is broken. */
export async function collectRows(): Promise<readonly TruthFile[]> {
  const names = readdirSync(folder)
    .filter((name) => name.endsWith(".truth.ts"))
    .sort();
  const files: TruthFile[] = [];
  for (const name of names) files.push(await readRows(name));
  return files;
}

async function readRows(fileName: string): Promise<TruthFile> {
  const name = fileName.replace(/\.truth\.ts$/, "");
  try {
    const module: { rows?: readonly TruthRow[] } = await import(new URL(fileName, folder).href);
    const rows = module.rows ?? [];
    return { name, rows, broken: rows.length > 0 ? null : "exports no rows" };
  } catch (thrown) {
    return { name, rows: [], broken: words(thrown) };
  }
}

/** Our number held against the one from outside. */
export function judge(row: TruthRow): RowResult {
  try {
    const got = row.got();
    if (!Number.isFinite(got)) return { row, got: null, error: null, passed: false, thrown: `gave ${got}` };
    const error = rowError(row, got);
    return { row, got, error, passed: error <= row.within, thrown: null };
  } catch (thrown) {
    return { row, got: null, error: null, passed: false, thrown: words(thrown) };
  }
}
