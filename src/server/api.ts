/** Routes of the app's own server and the shapes they speak. All under /api, JSON. */
import { Hono } from "hono";
import type { Outcome, Problem } from "../core/problem.ts";

/** GET /api/project: the project that the server was opened with. */
export interface OpenedProject {
  /** Name of the file, without its folder; null for the demo and for standard input. */
  readonly name: string | null;
  /** The project's text, byte for byte as it was read. */
  readonly text: string;
}

/** Every answer that is not what was asked for: status 4xx or 5xx. */
export interface Refused {
  readonly problems: readonly Problem[];
}

export function api(opened: () => Promise<Outcome<OpenedProject>>): Hono {
  const routes = new Hono();
  routes.get("/project", async (context) => {
    const project = await opened();
    context.header("Cache-Control", "no-store");
    if (project.ok) return context.json(project.value);
    return context.json({ problems: project.problems } satisfies Refused, 422);
  });
  routes.all("*", (context) => {
    const problem: Problem = {
      code: "unknown-route",
      path: [],
      message: `${context.req.method} ${context.req.path} is nothing that this server does.`,
    };
    return context.json({ problems: [problem] } satisfies Refused, 404);
  });
  return routes;
}
