/** Who else is at work: tells of every change of the library's projects, by this program or by another one. */
import type { LibraryContext } from "./context.ts";
import type { ProjectChange } from "./shapes.ts";

/** Every project that differs from what was seen last. The first look sees everything as new. */
export function createWatch({ db }: LibraryContext): () => Promise<readonly ProjectChange[]> {
  let seen = new Map<string, string>();
  return async () => {
    const rows = await db
      .selectFrom("project")
      .leftJoin("state", "state.project", "project.id")
      .select([
        "project.id",
        "project.head",
        "project.removed",
        ({ fn }) => fn.count<number | string>("state.number").as("states"),
      ])
      .groupBy(["project.id", "project.head", "project.removed"])
      .execute();
    const changes = rows.map(({ id, head, removed, states }) => ({
      id,
      head,
      states: Number(states),
      away: removed !== null,
    }));
    const signed = new Map(changes.map((change) => [change.id, JSON.stringify(change)]));
    const news = changes.filter(({ id }) => seen.get(id) !== signed.get(id));
    seen = signed;
    return news;
  };
}
