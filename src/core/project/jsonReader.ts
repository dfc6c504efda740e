/** Reads JSON text from left to right, goes on after what it can forgive, and notes it. */
import type { Problem } from "../problem.ts";
import { type JsonNode, type JsonReading, type Member, placeOf } from "./text.ts";

/**
 * Reads JSON text (without a byte-order mark).
 *
 * Problems: `empty-file`, `not-json`, `trailing-comma`, `repeated-key`, `comment`, `not-finite`, `too-deep`, each with line and column.
 */
export function readJson(text: string): JsonReading {
  const reader = new JsonReader(text);
  return reader.whole();
}

/** Deeper nesting is refused: a project needs less than 15. */
const deepest = 100;

/** Thrown inside the reader only, where the text cannot be read on. */
class Stop extends Error {}

const escapes: Readonly<Record<string, string>> = {
  '"': '"',
  "\\": "\\",
  "/": "/",
  b: "\b",
  f: "\f",
  n: "\n",
  r: "\r",
  t: "\t",
};

const spaces = /[ \t\r\n]*/y;

const numeral = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;

const word = /[+-]?[\p{L}\p{N}_.+-]+/uy;

/** Control characters end the run too; those that JSON allows are taken one by one. */
const runOfText = /[^"\\\p{Cc}]+/uy;

class JsonReader {
  private at = 0;
  private readonly path: (string | number)[] = [];
  private readonly problems: Problem[] = [];
  private readonly text: string;
  constructor(text: string) {
    this.text = text;
  }

  whole(): JsonReading {
    try {
      this.passSpace();
      if (this.at === this.text.length) {
        const message = 'The file is empty; a project starts with { "format": "glassdrum-project", "version": 1 }.';
        return { root: null, problems: [{ code: "empty-file", path: [], message }] };
      }
      const root = this.value();
      this.passSpace();
      if (this.at < this.text.length) this.stop("not-json", `Found ${this.here()} after the end of the value`);
      return { root, problems: this.problems };
    } catch (error) {
      if (error instanceof Stop) return { root: null, problems: this.problems };
      throw error;
    }
  }

  private value(): JsonNode {
    if (this.path.length > deepest) this.stop("too-deep", `Values are nested more than ${deepest} deep`);
    const start = this.at;
    const sign = this.text[start];
    if (sign === "{") return this.object();
    if (sign === "[") return this.array();
    if (sign === '"') return { kind: "scalar", start, value: this.string(), end: this.at };
    return this.bare(start);
  }

  /** A number, true, false, null, or something that JSON does not have. */
  private bare(start: number): JsonNode {
    const found = this.match(word);
    if (found === "") this.stop("not-json", `Found ${this.here()} where a value must stand`);
    const scalar = (value: number | boolean | null): JsonNode => ({ kind: "scalar", start, end: this.at, value });
    if (found === "true" || found === "false") return scalar(found === "true");
    if (found === "null") return scalar(null);
    if (/^[+-]?(nan|inf|infinity)$/i.test(found)) {
      this.note("not-finite", `Found ${found}, which is not a finite number`, start);
      return scalar(null);
    }
    numeral.lastIndex = start;
    const number = numeral.exec(this.text)?.[0];
    if (number !== found) {
      this.at = start;
      this.stop("not-json", `Found ${found}; a value with a unit stands in quotes, a number is written like -1.5e-3`);
    }
    const value = Number(number);
    if (Number.isFinite(value)) return scalar(value);
    this.note("not-finite", `Found ${found}, which is too large for a number`, start);
    return scalar(null);
  }

  private object(): JsonNode {
    const start = this.at++;
    const members: Member[] = [];
    const known = new Set<string>();
    this.passSpace();
    while (!this.take("}")) {
      const keyStart = this.at;
      if (this.text[keyStart] !== '"') this.stop("not-json", `Found ${this.here()} where a key in quotes must stand`);
      const key = this.string();
      const keySpan = { start: keyStart, end: this.at };
      this.path.push(key);
      if (known.has(key))
        this.note("repeated-key", `The key "${key}" stands here a second time; keep one of them`, keyStart);
      this.passSpace();
      if (!this.take(":")) this.stop("not-json", `Found ${this.here()} where ":" must stand after "${key}"`);
      this.passSpace();
      const value = this.value();
      if (!known.has(key)) members.push({ key, keySpan, value });
      known.add(key);
      this.path.pop();
      this.next("}");
    }
    return { kind: "object", start, end: this.at, members };
  }

  private array(): JsonNode {
    const start = this.at++;
    const items: JsonNode[] = [];
    this.passSpace();
    while (!this.take("]")) {
      this.path.push(items.length);
      items.push(this.value());
      this.path.pop();
      this.next("]");
    }
    return { kind: "array", start, end: this.at, items };
  }

  /** After a value: a comma and another one, or the closing bracket. */
  private next(close: string): void {
    this.passSpace();
    const comma = this.at;
    if (this.take(",")) {
      this.passSpace();
      if (this.text[this.at] === close)
        this.note("trailing-comma", `There is a comma before "${close}"; take it out`, comma);
    } else if (this.text[this.at] !== close)
      this.stop("not-json", `Found ${this.here()} where "," or "${close}" must stand`);
  }

  private string(): string {
    const start = this.at++;
    let value = "";
    for (;;) {
      value += this.match(runOfText);
      const sign = this.text[this.at];
      if (sign === undefined || sign < " ") {
        this.at = sign === undefined ? start : this.at;
        const what = sign === undefined ? "A text starts here and never ends" : "A text goes over the end of its line";
        this.stop("not-json", `${what}; its closing quote is missing`);
      }
      this.at += 1;
      if (sign === '"') return value;
      if (sign !== "\\") {
        value += sign;
        continue;
      }
      const letter = this.text[this.at++] ?? "";
      const code = this.text.slice(this.at, this.at + 4);
      if (letter === "u" && /^[\da-f]{4}$/i.test(code)) {
        value += String.fromCharCode(Number.parseInt(code, 16));
        this.at += 4;
      } else if (Object.hasOwn(escapes, letter)) value += escapes[letter] ?? "";
      else {
        this.at -= 2;
        this.stop("not-json", `Found "\\${letter}" in a text; a backslash is written \\\\`);
      }
    }
  }

  private passSpace(): void {
    this.match(spaces);
    while (this.text[this.at] === "/" && /[/*]/.test(this.text[this.at + 1] ?? "")) {
      const start = this.at;
      this.note("comment", 'There is a comment; a project has none, write it into "notes"', start);
      const long = this.text[start + 1] === "*";
      const end = this.text.indexOf(long ? "*/" : "\n", start + 2);
      this.at = end < 0 ? this.text.length : end + (long ? 2 : 1);
      this.match(spaces);
    }
  }

  private match(pattern: RegExp): string {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text)?.[0] ?? "";
    this.at += found.length;
    return found;
  }

  private take(sign: string): boolean {
    if (this.text[this.at] !== sign) return false;
    this.at += 1;
    return true;
  }

  private here(): string {
    const point = this.text.codePointAt(this.at);
    return point === undefined ? "the end of the file" : JSON.stringify(String.fromCodePoint(point));
  }

  private note(code: string, what: string, offset: number): void {
    const message = `${what} (${placeOf(this.text, offset)}).`;
    this.problems.push({ code, path: [...this.path], message });
  }

  private stop(code: string, what: string): never {
    this.note(code, what, this.at);
    throw new Stop();
  }
}
