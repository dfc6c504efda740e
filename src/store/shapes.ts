/** What the library tells: plain shapes, for the server and for pages. Times in milliseconds since 1970. */

/** A line of the shelf. */
export interface ShelfLine {
  readonly id: string;
  readonly title: string;
  readonly created: number;
  readonly saved: number;
  readonly removed: number | null;
  readonly states: number;
  readonly records: number;
  readonly specimens: readonly { readonly id: string; readonly name: string }[];
}

/** A point of a project's line of time. */
export interface StateLine {
  readonly number: number;
  readonly parent: number | null;
  readonly saved: number;
  readonly says: string;
  readonly name: string | null;
  readonly sha256: string;
}

export interface History {
  readonly id: string;
  readonly head: number;
  readonly states: readonly StateLine[];
}

export interface StoredProject {
  readonly id: string;
  readonly title: string;
  readonly state: number;
  /** The text, byte for byte as it was saved. */
  readonly text: string;
  readonly records: readonly RecordRow[];
}

/** `conflict`: another save came first; this one is kept as the state `state`, and `head` counts until one of them is chosen. */
export interface Saved {
  readonly id: string;
  readonly state: number;
  readonly head: number;
  readonly conflict: boolean;
}

export interface SaveRequest {
  /** The state that the text was made from. */
  readonly base: number;
  readonly text: string;
  /** What was done, in words. */
  readonly says: string;
}

export interface RecordRow {
  readonly id: string;
  /** Name of the file that it came as. */
  readonly name: string;
  /** Of the bytes, hexadecimal: what the project's `sha256` says. */
  readonly sha256: string;
  readonly size: number;
  /** Milliseconds since 1970. */
  readonly added: number;
}

export interface Imported {
  readonly id: string;
  readonly title: string;
  /** "added": new here; "known": here already, the same; "beside": here already but different, so it was added under a new id. */
  readonly as: "added" | "known" | "beside";
}

/** A project's place on its line of time, as it is now. */
export interface ProjectChange {
  readonly id: string;
  readonly head: number;
  /** Number of states: one more than before where somebody saved beside the head. */
  readonly states: number;
  readonly away: boolean;
}
