/** manifest.json of an archive: its shape, and reading it. */
import * as z from "zod";
import { answer, type Outcome, type Path, refuse } from "../core/problem.ts";
import { textOfBytes } from "../writers/zip.ts";

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const id = z.string().regex(/^[\w-]{1,64}$/);
const time = z.number().int().nonnegative();
const number = z.number().int().positive();

const projectShape = z.object({
  id,
  title: z.string(),
  /** Number of the state that counts. */
  head: number,
  /** Milliseconds since 1970. */
  created: time,
  saved: time,
  removed: time.nullable(),
  states: z
    .array(
      z.object({
        number,
        parent: number.nullable(),
        saved: time,
        says: z.string(),
        name: z.string().nullable(),
        file: z.string(),
        sha256,
      }),
    )
    .min(1),
  records: z.array(z.object({ id, name: z.string(), added: time, file: z.string(), sha256 })),
});

const manifestShape = z.object({
  format: z.literal("glassdrum-archive"),
  version: z.literal(1),
  projects: z.array(projectShape),
});

export type Manifest = z.infer<typeof manifestShape>;
export type ManifestProject = z.infer<typeof projectShape>;

/** Problems: `no-manifest`, `bad-manifest` with the places in it. */
export function readManifest(bytes: Uint8Array | undefined): Outcome<Manifest> {
  if (bytes === undefined)
    return refuse({
      code: "no-manifest",
      path: [],
      message:
        "The ZIP holds no manifest.json, so it is no archive of this program. A single project or record can be dropped as a file.",
    });
  let json: unknown;
  try {
    json = JSON.parse(textOfBytes(bytes));
  } catch (error) {
    return bad([], error instanceof Error ? error.message : String(error));
  }
  const read = manifestShape.safeParse(json);
  if (!read.success) return refuse(...read.error.issues.map(({ path, message }) => problemOf(path, message)));
  const headless = read.data.projects.findIndex(({ head, states }) => !states.some((state) => state.number === head));
  return headless < 0 ? answer(read.data) : bad(["projects", headless, "head"], "no such state is listed");
}

const problemOf = (path: readonly PropertyKey[], message: string) => ({
  code: "bad-manifest",
  path: path.map((step) => (typeof step === "number" ? step : String(step))),
  message: `manifest.json: ${message}.`,
});

const bad = (path: Path, message: string) => refuse(problemOf(path, message));
