/** A project in the library and the file that it came from: which of the two goes on. */
import { answer, type Outcome } from "../core/problem.ts";
import { type LibraryContext, withStorage } from "./context.ts";
import { hashOf } from "./hash.ts";
import { saveState } from "./states.ts";

export interface Bound {
  readonly id: string;
  /** The state that counts. */
  readonly state: number;
  readonly text: string;
  /** A state beside it that waits for a choice: the file and the library both went on. */
  readonly beside: number | null;
}

/**
 * The library's project that came from that file, or null. A file that was changed by another program since comes in as a new
 * state: on top, where the library had not gone on, else beside it.
 */
export const boundTo = (
  context: LibraryContext,
  { origin, text }: { readonly origin: string; readonly text: string },
): Promise<Outcome<Bound | null>> =>
  withStorage(context, async () => {
    const { db } = context;
    const project = await db
      .selectFrom("project")
      .select(["id", "head", "origin_state"])
      .where("origin", "=", origin)
      .where("removed", "is", null)
      .orderBy("saved", "desc")
      .executeTakeFirst();
    if (project === undefined) return answer(null);
    const { id } = project;
    const known = await db
      .selectFrom("state")
      .select("number")
      .where("project", "=", id)
      .where("sha256", "=", hashOf(text))
      .executeTakeFirst();
    let beside: number | null = null;
    if (known === undefined) {
      const base = project.origin_state ?? project.head;
      const saved = await saveState(context, id, { base, text, says: "Read from the file, changed outside" });
      if (!saved.ok) return saved;
      if (saved.value.conflict) beside = saved.value.state;
      await noteFile(context, id, saved.value.state);
    }
    const head = await db
      .selectFrom("project")
      .innerJoin("state", (join) =>
        join.onRef("state.project", "=", "project.id").onRef("state.number", "=", "project.head"),
      )
      .select(["state.number", "state.text"])
      .where("project.id", "=", id)
      .executeTakeFirstOrThrow();
    return answer({ id, state: head.number, text: head.text, beside });
  });

/** Notes that the file now holds that state. */
export async function noteFile({ db }: LibraryContext, id: string, state: number): Promise<void> {
  await db.updateTable("project").set({ origin_state: state }).where("id", "=", id).execute();
}
