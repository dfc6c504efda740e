/** What is to be heard through the microphone: a sound of ours, or a recording as its file holds it. */
import { answer, type Outcome, readQuantity, refuse, type SoundName } from "../../core/index.ts";
import { soundWords as words } from "../../words/en/sound.ts";

export const sampling = 48000;

export type ChosenSound =
  | { readonly wave: Uint8Array }
  | { readonly name: SoundName; readonly sampling: number; readonly frequency: number };

/** `tone`: its frequency as it was typed. Problems: `no-recording`; of a tone those of its frequency. */
export async function chosenSound(
  which: SoundName | "own",
  { tone, file }: { readonly tone: string; readonly file: Blob | null },
): Promise<Outcome<ChosenSound>> {
  if (which === "own") {
    if (file === null) return refuse({ code: "no-recording", path: [], message: words.noFile });
    return answer({ wave: new Uint8Array(await file.arrayBuffer()) });
  }
  const frequency = readQuantity(tone, "frequency", ["frequency"]);
  if (which === "tone" && !frequency.ok) return frequency;
  return answer({ name: which, sampling, frequency: frequency.ok ? frequency.value : 1000 });
}
