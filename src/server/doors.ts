/**
 * Who may come in. The server listens on loopback only, but any page open in the user's browser can try to reach it:
 * so it answers to its own name only, and changes something only for its own page with this session's token.
 */
import { timingSafeEqual } from "node:crypto";
import type { MiddlewareHandler } from "hono";
import type { Problem } from "../core/problem.ts";

/** Header that carries the session's token on every write. */
export const tokenHeader = "x-glassdrum-token";

export interface Doors {
  /** Port that the server listens on; known only once it listens. */
  readonly port: () => number;
  /** This session's token, handed to the page with its document. */
  readonly token: string;
}

const names = (port: number): readonly string[] => [`127.0.0.1:${port}`, `localhost:${port}`];

/** Why this request is not let in, or null. `method`, and the three headers as they came. */
export function refusal(
  doors: Doors,
  request: {
    readonly method: string;
    readonly host: string | undefined;
    readonly origin: string | undefined;
    readonly token: string | undefined;
    /** Sec-Fetch-Site: what the browser says of who asks; missing where no browser asks. */
    readonly site?: string | undefined;
  },
): Problem | null {
  const allowed = names(doors.port());
  if (request.host === undefined || !allowed.includes(request.host))
    return no("wrong-host", `Host ${shown(request.host)}; this server answers to ${allowed.join(" and ")} only.`);
  if (request.origin !== undefined && request.origin !== `http://${request.host}`)
    return no("wrong-origin", `Origin ${shown(request.origin)}; only pages of this server may ask.`);
  if (request.site !== undefined && !ownSites.includes(request.site))
    return no("wrong-origin", `Asked from a ${shown(request.site)} page; only pages of this server may ask.`);
  if (request.method === "GET" || request.method === "HEAD") return null;
  if (request.origin === undefined)
    return no("wrong-origin", "No Origin; a change must come from a page of this server.");
  if (!sameText(request.token ?? "", doors.token))
    return no("wrong-token", `The header ${tokenHeader} does not carry this session's token. Load the page again.`);
  return null;
}

/** A page of ours, or the user's own hand: an address typed, a bookmark. */
const ownSites: readonly string[] = ["same-origin", "none"];

/** Turns refusals into 403. */
export function guard(doors: Doors): MiddlewareHandler {
  return async (context, next) => {
    const problem = refusal(doors, {
      method: context.req.method,
      host: context.req.header("host"),
      origin: context.req.header("origin"),
      token: context.req.header(tokenHeader),
      site: context.req.header("sec-fetch-site"),
    });
    if (problem !== null) return context.json({ problems: [problem] }, 403);
    await next();
    return undefined;
  };
}

const no = (code: string, message: string): Problem => ({ code, path: [], message });
const shown = (text: string | undefined): string =>
  text === undefined ? "missing" : JSON.stringify(text.slice(0, 80));

function sameText(a: string, b: string): boolean {
  const [left, right] = [Buffer.from(a), Buffer.from(b)];
  return left.length === right.length && timingSafeEqual(left, right);
}
