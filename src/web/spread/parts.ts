import { designParts } from "../shell/partText.ts";

/** What of a project a spread depends on. */
export const spreadParts = [...designParts, "tolerances"] as const;
