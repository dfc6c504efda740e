/** A project file in, changed value by value, and out again: unchanged text stays byte for byte. */
import { answer, type Outcome, type Problem, pathText, refuse } from "../problem.ts";
import { readJson } from "./jsonReader.ts";
import { lookUp, type Place, type Steps } from "./lookUp.ts";
import { checkReferences } from "./references.ts";
import { Leaf, type Schema } from "./schema.ts";
import { formatName, formatVersion, type ProjectFile, projectShape } from "./shape.ts";
import { type Json, type JsonNode, nodeAt, plainValue } from "./text.ts";
import { removeAt, writeAt } from "./textChange.ts";
import { bytesOf, textOf } from "./utf8.ts";
import { validate } from "./validate.ts";
import { childOf, forms } from "./walk.ts";

/** A valid project. It never changes; `changeValue` gives another one. */
export interface Project {
  /** The file's text as it came, without its byte-order mark. */
  readonly text: string;
  readonly byteOrderMark: boolean;
  /** Where each value stands in `text`. */
  readonly root: JsonNode;
  /** The values as the file says them; physical ones are text. */
  readonly file: ProjectFile;
  /** What was noticed: `byte-order-mark`, `unknown-key`, `decimal-comma`. */
  readonly remarks: readonly Problem[];
}

/** A file above this is refused before it is read [bytes]. A project is some 10 kB; records lie in files of their own. */
export const largestFile = 20e6;

/**
 * The one way in, for file, drop, library and command. All problems come at once.
 *
 * Problems: `too-large`, `not-utf8`, those of `readJson`, `wrong-format`, `wrong-version`, `newer-version`, those of `validate`
 * and `checkReferences`. Remarks: `byte-order-mark`, `unknown-key`, `decimal-comma`.
 */
export function loadProject(source: Uint8Array | string): Outcome<Project> {
  if (source.length > largestFile) return refuse(tooLarge(source.length));
  const decoded = typeof source === "string" ? answer(source) : textOf(source);
  if (!decoded.ok) return decoded;
  const byteOrderMark = decoded.value.startsWith("\ufeff");
  const text = byteOrderMark ? decoded.value.slice(1) : decoded.value;
  const { root, problems } = readJson(text);
  if (root === null) return refuse(...problems);
  const value = plainValue(root);
  const wrongHead = headProblem(value);
  if (wrongHead !== null) return refuse(...problems, wrongHead);
  const findings = validate(projectShape, value);
  const file = value as ProjectFile;
  const references = findings.problems.length > 0 ? [] : checkReferences(file);
  const all = [...problems, ...unheard(problems, findings.problems), ...references];
  if (all.length > 0) return refuse(...all);
  const remarks = byteOrderMark ? [markRemark, ...findings.remarks] : findings.remarks;
  return answer({ text, byteOrderMark, root, file, remarks }, remarks);
}

/** The text of the project, byte-order mark included. */
export const projectText = (project: Project): string =>
  project.byteOrderMark ? `\ufeff${project.text}` : project.text;

/** The bytes of the project's file: those that came in, where nothing was changed. */
export const projectBytes = (project: Project): Uint8Array => bytesOf(projectText(project));

/**
 * The project with one value changed; the rest of the text stays. `valueText` is JSON where it parses ("null", "0.5",
 * `{ "gap": "30 um" }`), else a text in quotes: `38 um`. A missing key is added, with the groups on the way.
 *
 * Problems: those of `lookUp`, `writeAt` and of the changed project.
 */
export function changeValue(project: Project, path: string | Steps, valueText: string): Outcome<Project> {
  const place = lookUp(path);
  if (!place.ok) return place;
  const { steps, value } = target(project, place.value, jsonText(valueText, place.value.schema));
  const text = writeAt(project.text, project.root, steps, value);
  return text.ok ? loadProject(projectText({ ...project, text: text.value })) : text;
}

/** The project without that key or item: it then takes its default, or is absent. A path that is not there changes nothing. */
export function removeValue(project: Project, path: string | Steps): Outcome<Project> {
  const place = lookUp(path);
  if (!place.ok) return place;
  const text = removeAt(project.text, project.root, steppedInto(project, place.value.steps));
  return text === project.text ? answer(project) : loadProject(projectText({ ...project, text }));
}

/** What the file says at a path; undefined where it says nothing. */
export function fileValue(project: Project, path: Steps): Json | undefined {
  const node = nodeAt(project.root, steppedInto(project, path));
  return node === null ? undefined : plainValue(node);
}

/** `guide[0]` of a guide that stands alone is that guide. */
function steppedInto(project: Project, steps: Steps): Steps {
  const taken: (string | number)[] = [];
  for (const step of steps) {
    const alone = step === 0 && nodeAt(project.root, taken)?.kind === "object";
    if (!alone) taken.push(step);
  }
  return taken;
}

/** Where to write what. One word for both pairs of edges is taken apart where only one pair changes. */
function target(project: Project, place: Place, value: string): { steps: Steps; value: string } {
  const steps = steppedInto(project, place.steps);
  let schemas: readonly Schema[] = [projectShape];
  for (let depth = 0; depth < steps.length; depth++) {
    const node = nodeAt(project.root, steps.slice(0, depth));
    const rest = steps.slice(depth);
    const groups = schemas.flatMap(forms);
    if (node?.kind === "scalar" && typeof node.value === "string") {
      const inner = rest.slice(1).reduceRight<string>((text, step) => `{ ${JSON.stringify(step)}: ${text} }`, value);
      const other = rest[0] === "sides" ? "ends" : "sides";
      if (groups.some((form) => childOf(form, "sides") !== null) && (rest[0] === "sides" || rest[0] === "ends"))
        return {
          steps: steps.slice(0, depth),
          value: `{ ${JSON.stringify(rest[0])}: ${inner}, "${other}": ${JSON.stringify(node.value)} }`,
        };
      if (rest[0] === "rotation") return { steps: steps.slice(0, depth), value: `{ "rotation": ${value} }` };
    }
    // One stiffness for all edges takes the place of those of the pairs.
    const isPairs = node?.kind === "object" && node.members.some(({ key }) => key === "sides" || key === "ends");
    if (isPairs && rest[0] === "rotation") return { steps: steps.slice(0, depth), value: `{ "rotation": ${value} }` };
    schemas = groups.flatMap((form) => childOf(form, steps[depth] as string | number) ?? []);
  }
  return { steps, value };
}

const isFreeText = (form: Schema): boolean =>
  form instanceof Leaf && form.given.types.every((type) => type === "string") && !form.given.words && !form.given.field;

function jsonText(valueText: string, schema: Schema): string {
  const trimmed = valueText.trim();
  const { root, problems } = readJson(trimmed);
  const isText = forms(schema).every(isFreeText);
  const taken = root !== null && problems.length === 0 && !(isText && typeof plainValue(root) !== "string");
  return taken ? trimmed : JSON.stringify(valueText);
}

const markRemark: Problem = {
  code: "byte-order-mark",
  path: [],
  message: "The file starts with a byte-order mark; it is kept and means nothing.",
};

const tooLarge = (size: number): Problem => ({
  code: "too-large",
  path: [],
  message: `The file has ${(size / 1e6).toFixed(0)} MB; a project has at most ${largestFile / 1e6} MB. Records lie in files of their own, named in "specimens".`,
});

/** Problems of values whose text could not be read are said once. */
function unheard(said: readonly Problem[], more: readonly Problem[]): Problem[] {
  const paths = new Set(said.map(({ path }) => pathText(path)));
  return more.filter(({ path }) => !paths.has(pathText(path)));
}

function headProblem(value: Json): Problem | null {
  const head = (typeof value === "object" && value !== null && !Array.isArray(value) ? value : {}) as Record<
    string,
    Json
  >;
  const { format, version } = head as { format?: Json; version?: Json };
  if (format !== formatName)
    return {
      code: "wrong-format",
      path: format === undefined ? [] : ["format"],
      message: `Found ${format === undefined ? 'no "format"' : `"format": ${JSON.stringify(format).slice(0, 60)}`}; a project file says "format": "${formatName}", "version": ${formatVersion}.`,
    };
  if (typeof version === "number" && version > formatVersion)
    return {
      code: "newer-version",
      path: ["version"],
      message: `The file is of version ${version}; this program reads up to version ${formatVersion}. Use a newer Glassdrum.`,
    };
  if (version !== formatVersion)
    return {
      code: "wrong-version",
      path: ["version"],
      message: `Found ${version === undefined ? 'no "version"' : `"version": ${JSON.stringify(version).slice(0, 60)}`}; needed: "version": ${formatVersion}.`,
    };
  return null;
}
