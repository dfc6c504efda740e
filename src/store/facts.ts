/** What the library knows of a project without opening it: title and specimens, read off its text at each save. */
import { loadProject } from "../core/index.ts";
import { answer, type Outcome } from "../core/problem.ts";
import type { Store } from "./context.ts";

export interface Facts {
  readonly title: string;
  readonly specimens: readonly { readonly id: string; readonly name: string }[];
}

/** Specimens that a project's text names, each id once; none where the text is no project. */
export function specimensOf(text: string): Facts["specimens"] {
  const facts = factsOf(text);
  return facts.ok ? [...new Map(facts.value.specimens.map((one) => [one.id, one])).values()] : [];
}

export function factsOf(text: string): Outcome<Facts> {
  const loaded = loadProject(text);
  if (!loaded.ok) return loaded;
  const { title, specimens } = loaded.value.file;
  return answer({
    title: title?.trim() || "Untitled",
    specimens: (specimens ?? []).map(({ id, name }, i) => ({ id: id ?? String(i + 1), name: name ?? id ?? "" })),
  });
}

export async function listSpecimens(db: Store, project: string, specimens: Facts["specimens"]): Promise<void> {
  await db.deleteFrom("specimen").where("project", "=", project).execute();
  const once = new Map(specimens.map(({ id, name }) => [id, { project, id, name }]));
  if (once.size > 0)
    await db
      .insertInto("specimen")
      .values([...once.values()])
      .execute();
}
