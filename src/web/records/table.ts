/** The records that lie on the table: they stay there while other pages are looked at. */
import { createSignal } from "solid-js";
import {
  type BesideName,
  type FitOptions,
  type Problem,
  type Project,
  type Recipe,
  type RecordAnswer,
  recordByFile,
} from "../../core/index.ts";
import type { LaidFile } from "../../worker/tasks.ts";

export interface LaidRecord {
  readonly id: number;
  readonly name: string;
  /** Read where it is needed, by the thread that reads records too. */
  readonly file: Blob;
  /** What the user said of the file; null: it speaks for itself. */
  readonly recipe: Recipe | null;
  readonly options: FitOptions;
  /** Sound pressure of the tone, root mean square [Pa]; null: not named. */
  readonly excitation: number | null;
  /** Other records on the table that its fit takes, by what they are. */
  readonly beside: { readonly [K in BesideName]?: number };
}

/** A fit that was kept, to be laid under others. */
export interface KeptFit {
  readonly id: number;
  readonly name: string;
  readonly answer: RecordAnswer;
}

export type RecordState =
  | { readonly is: "reading"; readonly share: number }
  | { readonly is: "done"; readonly answer: RecordAnswer; readonly remarks: readonly Problem[] }
  | { readonly is: "refused"; readonly problems: readonly Problem[] };

const [records, setRecords] = createSignal<readonly LaidRecord[]>([]);
const [chosenId, setChosenId] = createSignal(0);
const [states, setStates] = createSignal<ReadonlyMap<number, RecordState>>(new Map());
const [kept, setKept] = createSignal<readonly KeptFit[]>([]);
let count = 0;

export { chosenId, kept, records, setChosenId };

export const chosen = (): LaidRecord | undefined => records().find(({ id }) => id === chosenId());
export const stateOf = (id: number): RecordState | undefined => states().get(id);
export const setState = (id: number, state: RecordState): void => {
  setStates(new Map([...states(), [id, state]]));
};

/** Where the project has a record of that file, it is read and fitted as the project says. */
export function lay(name: string, file: Blob, project?: Project): void {
  count += 1;
  const known = project === undefined ? null : recordByFile(project, name);
  setRecords([
    ...records(),
    {
      id: count,
      name,
      file,
      recipe: known?.recipe ?? null,
      options: known?.options ?? {},
      excitation: known?.excitation ?? null,
      beside: {},
    },
  ]);
  setChosenId(count);
}

export function takeAway(id: number): void {
  const without = (beside: LaidRecord["beside"]) =>
    Object.fromEntries(Object.entries(beside).filter(([, other]) => other !== id));
  setRecords(
    records()
      .filter((one) => one.id !== id)
      .map((one) => (Object.values(one.beside).includes(id) ? { ...one, beside: without(one.beside) } : one)),
  );
  setKept(kept().filter((one) => one.id !== id));
  if (chosenId() === id) setChosenId(records().at(-1)?.id ?? 0);
}

export function changed(id: number, change: Partial<Omit<LaidRecord, "id">>): void {
  setRecords(records().map((one) => (one.id === id ? { ...one, ...change } : one)));
}

export function keep(record: LaidRecord, answer: RecordAnswer): void {
  setKept([...kept().filter(({ id }) => id !== record.id), { id: record.id, name: record.name, answer }]);
}

/** The files behind `beside`, as the worker takes them. */
export function besideFiles({ beside }: LaidRecord): { readonly [K in BesideName]?: LaidFile } {
  return Object.fromEntries(
    Object.entries(beside).flatMap(([name, id]) => {
      const other = records().find((one) => one.id === id);
      return other === undefined ? [] : [[name, { file: other.file, recipe: other.recipe }]];
    }),
  );
}
