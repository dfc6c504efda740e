/** `glassdrum open`: serves the app on this machine until it is told to stop. */
import { answerJson, answerLine, answerProblems, sayLine } from "./print.ts";
import { readBytes } from "./readFile.ts";
import { type Status, status } from "./status.ts";

export async function open(file: string, options: { port: number; json: boolean }): Promise<Status> {
  if (file !== "demo") {
    const found = await readBytes(file);
    if (!found.ok) {
      answerProblems("open", file, found.problems, options.json);
      return status.wrongUse;
    }
  }
  const { serve } = await import("../server/serve.ts");
  const { url, close } = await serve({ ...(file === "demo" ? {} : { file }), port: options.port });
  if (options.json) answerJson({ url });
  else answerLine(url);
  sayLine("Serving on this machine only. Ctrl-C stops it.");
  await new Promise<void>((resolve) => {
    process.once("SIGINT", resolve);
    process.once("SIGTERM", resolve);
  });
  await close();
  return status.done;
}
