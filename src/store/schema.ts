/** Tables of the library. Written once for SQLite and PostgreSQL: texts, whole numbers and bytes are all it uses. */
import type { ColumnType } from "kysely";

/** A whole number that may pass 2^31: a driver may hand it back as text. */
export type Whole = ColumnType<number | string, number, number>;

export interface Tables {
  /** The library's own facts: "version". */
  readonly fact: { readonly key: string; readonly value: string };
  readonly project: {
    readonly id: string;
    /** Title of the state at the head, for lists and search. */
    readonly title: string;
    /** Number of the state that counts. */
    readonly head: number;
    /** Milliseconds since 1970. */
    readonly created: Whole;
    readonly saved: Whole;
    /** When it was put away; null: it is on the shelf. */
    readonly removed: ColumnType<number | string | null, number | null, number | null>;
    /** File that the project came from, whole path; null: none. */
    readonly origin: string | null;
    /** The state that was last read from, or written to, that file. */
    readonly origin_state: number | null;
  };
  /** Every state that a project was ever saved in. Rows are added and named, never changed otherwise. */
  readonly state: {
    readonly project: string;
    /** 1, 2, 3 … within the project. */
    readonly number: number;
    /** The state that it was made from; null: the first. */
    readonly parent: number | null;
    readonly text: string;
    /** SHA-256 of the text in UTF-8, hexadecimal. */
    readonly sha256: string;
    readonly saved: Whole;
    /** What was done: "Air gap 40 um". */
    readonly says: string;
    /** A name that the user gave it. */
    readonly name: string | null;
  };
  /** Specimens of the state at the head, for lists and search. */
  readonly specimen: { readonly project: string; readonly id: string; readonly name: string };
  /** Raw bytes, once for each content. */
  readonly raw: { readonly sha256: string; readonly size: Whole; readonly bytes: Uint8Array };
  readonly record: {
    readonly id: string;
    readonly project: string;
    /** Name of the file that it came as. */
    readonly name: string;
    readonly sha256: string;
    readonly added: Whole;
  };
}
