/** The typeface, asked for when the first answer has been painted: nobody waits for letters. Until then the system's own stand in. */
import regular from "@expo-google-fonts/inter/400Regular/Inter_400Regular.ttf?url";
import semiBold from "@expo-google-fonts/inter/600SemiBold/Inter_600SemiBold.ttf?url";

/** Name of the mark at the end of the first load, and of the page's attribute once the letters are there. */
const mark = "typeface";

let wanted = false;

/** Asks for it once. */
export function loadTypeface(): void {
  if (wanted) return;
  wanted = true;
  // The frame after the next: what has just been written is on the screen.
  requestAnimationFrame(() => requestAnimationFrame(() => void ask()));
}

async function ask(): Promise<void> {
  performance.mark(mark);
  const faces = [
    new FontFace("Inter", `url("${regular}")`, { weight: "400" }),
    new FontFace("Inter", `url("${semiBold}")`, { weight: "600" }),
  ];
  // Without them the page reads as well, only not as fine.
  await Promise.allSettled(faces.map((face) => face.load()));
  for (const face of faces) if (face.status === "loaded") document.fonts.add(face);
  document.documentElement.dataset[mark] = faces.every(({ status }) => status === "loaded") ? "inter" : "system";
}
