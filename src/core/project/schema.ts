/**
 * What a value of a document may be. Plain objects: a whole project's shape is made at every start of the program, most of it for
 * nothing, so that each takes a tenth of a microsecond and does nothing until it is asked.
 */
import type { KindName } from "../quantity/kinds.ts";

/** Limits in SI; `above` and `below` do not include their end. */
export interface Bounds {
  readonly above?: number;
  readonly atLeast?: number;
  readonly atMost?: number;
  readonly below?: number;
}

/** What the program knows of one value of a project. */
export interface Field {
  readonly kind: KindName;
  /** English, as beside a field on a page: "Air gap". */
  readonly label: string;
  readonly bounds: Bounds;
}

export abstract class Schema<T = unknown> {
  /** Only a type: what a value that fits is. */
  declare readonly holds: T;

  optional(): Optional<T> {
    return new Optional(this);
  }

  nullable(): Nullable<T> {
    return new Nullable(this);
  }
}

/** What a schema lets through. */
export type Of<S> = S extends Schema<infer T> ? T : never;

export class Optional<T = unknown> extends Schema<T | undefined> {
  readonly mayBeLeftOut = true;
  readonly inner: Schema<T>;

  constructor(inner: Schema<T>) {
    super();
    this.inner = inner;
  }
}

export class Nullable<T = unknown> extends Schema<T | null> {
  readonly mayBeNull = true;
  readonly inner: Schema<T>;

  constructor(inner: Schema<T>) {
    super();
    this.inner = inner;
  }
}

type Plain = string | number | boolean;

export interface LeafGiven {
  /** Types that fit. */
  readonly types: readonly ("string" | "number" | "boolean")[];
  /** What is wrong with a value of another type or another word. */
  readonly says: (found: unknown) => string;
  readonly label?: string;
  readonly field?: Field;
  /** All values that fit; any of the types where absent. */
  readonly words?: readonly Plain[];
  /** What is wrong with a value of the right type, in words; null: nothing. */
  readonly wrong?: (value: string) => string | null;
}

/** A value without values inside. */
export class Leaf<T = unknown> extends Schema<T> {
  readonly given: LeafGiven;

  constructor(given: LeafGiven) {
    super();
    this.given = given;
  }
}

/** Anything at all. */
export class Anything extends Schema {
  readonly anything = true;
}

export type Members = Readonly<Record<string, Schema>>;

type Flat<T> = { [K in keyof T]: T[K] };

type MembersOf<M extends Members> = Flat<
  { [K in keyof M as M[K] extends Optional ? never : K]: Of<M[K]> } & {
    [K in keyof M as M[K] extends Optional ? K : never]?: Of<M[K]>;
  } & Record<string, unknown>
>;

/** A group of keys; further keys are kept. */
export class Group<M extends Members = Members> extends Schema<MembersOf<M>> {
  readonly label: string;
  readonly members: M;
  /** Under which it stands once in the JSON Schema; null: where it is. */
  readonly name: string | null;
  /** Keys that may not be left out. */
  readonly needed: readonly string[];

  constructor(label: string, members: M, name: string | null, needed: readonly string[]) {
    super();
    this.label = label;
    this.members = members;
    this.name = name;
    this.needed = needed;
  }
}

/** How many items a list has, and what is said of another number. */
export interface Count {
  readonly exactly?: number;
  readonly atLeast?: number;
  readonly says: string;
}

export class List<T = unknown> extends Schema<T[]> {
  readonly label: string | null;
  readonly item: Schema<T>;
  readonly count: Count | null;

  constructor(label: string | null, item: Schema<T>, count: Count | null = null) {
    super();
    this.label = label;
    this.item = item;
    this.count = count;
  }

  counting(count: Count): List<T> {
    return new List(this.label, this.item, count);
  }
}

export class Pair<T = unknown> extends Schema<[T, T]> {
  readonly label: string;
  readonly both: Schema<T>;

  constructor(label: string, both: Schema<T>) {
    super();
    this.label = label;
    this.both = both;
  }
}

/** A group whose keys are names of the user's own. */
export class Dictionary<T = unknown> extends Schema<Record<string, T>> {
  readonly value: Schema<T>;

  constructor(value: Schema<T>) {
    super();
    this.value = value;
  }
}

/** One of several forms, of unlike types. */
export class Either<T = unknown> extends Schema<T> {
  readonly options: readonly Schema<T>[];

  constructor(options: readonly Schema<T>[]) {
    super();
    this.options = options;
  }
}

export const either = <const S extends readonly Schema[]>(...options: S): Either<Of<S[number]>> =>
  new Either(options as readonly Schema[] as readonly Schema<Of<S[number]>>[]);
