/** The bytes of a file that lies on the table: read by whoever needs them, so that the page waits for none of them. */
import { answer, type Outcome, refuse } from "../core/problem.ts";

/** Problems: `not-readable`, where the file was moved, changed or deleted since it was chosen, or is a folder. */
export async function fileBytes(file: Blob): Promise<Outcome<Uint8Array<ArrayBuffer>>> {
  try {
    return answer(new Uint8Array(await file.arrayBuffer()));
  } catch (error) {
    return refuse({
      code: "not-readable",
      path: [],
      message: `The file can't be read: ${error instanceof Error ? error.message : String(error)} Needed: the file as it was when it was chosen. Choose it again.`,
    });
  }
}

/** The same within a task: the thread does other things until they have come. */
export function* awaitedBytes(file: Blob): Generator<Promise<unknown>, Outcome<Uint8Array>> {
  let read: Outcome<Uint8Array> | null = null;
  const coming = fileBytes(file).then((bytes) => {
    read = bytes;
  });
  while (read === null) yield coming;
  return read;
}
