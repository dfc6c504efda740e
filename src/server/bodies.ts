/** What a request's body must be. */
import type { Context } from "hono";
import * as z from "zod";
import { answer, type Outcome, refuse } from "../core/problem.ts";
import type { Away, ChosenHead, FileText, NewProject, NewState, StateName } from "./api.ts";

const number = z.number().int().positive();
const says = z.string().max(1000);

export const newProjectShape: z.ZodType<NewProject> = z.object({
  text: z.string(),
  says,
  opened: z.boolean().optional(),
});
export const newStateShape: z.ZodType<NewState> = z.object({ base: number, text: z.string(), says });
export const chosenHeadShape: z.ZodType<ChosenHead> = z.object({ number, base: number });
export const stateNameShape: z.ZodType<StateName> = z.object({
  number,
  name: z.string().trim().min(1).max(200).nullable(),
});
export const awayShape: z.ZodType<Away> = z.object({ away: z.boolean() });
export const fileTextShape: z.ZodType<FileText> = z.object({ text: z.string(), over: z.string() });

/** Problems: `bad-body` with the places in it. */
export async function bodyOf<T>(context: Context, shape: z.ZodType<T>): Promise<Outcome<T>> {
  let json: unknown;
  try {
    json = await context.req.json();
  } catch {
    return refuse({ code: "bad-body", path: [], message: "The body of the request is no JSON." });
  }
  const read = shape.safeParse(json);
  if (read.success) return answer(read.data);
  return refuse(
    ...read.error.issues.map(({ path, message }) => ({
      code: "bad-body",
      path: path.map((step) => (typeof step === "number" ? step : String(step))),
      message: `${message}.`,
    })),
  );
}
