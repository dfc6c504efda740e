import { createHash } from "node:crypto";

/** SHA-256, hexadecimal; of a text: of its UTF-8. */
export const hashOf = (content: string | Uint8Array): string => createHash("sha256").update(content).digest("hex");
