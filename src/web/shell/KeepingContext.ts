/** How a page reaches the keeping of the project on the table. */
import { createContext, useContext } from "solid-js";
import type { Keeping } from "./keeping.ts";

export const KeepingContext = createContext<Keeping>();

/** Only inside the app's pages. */
export function useKeeping(): Keeping {
  const keeping = useContext(KeepingContext);
  if (keeping === undefined) throw new Error("nothing keeps the project around this page");
  return keeping;
}
