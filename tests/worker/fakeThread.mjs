// Node's worker threads load plain JavaScript only: this starts the TypeScript one.
import { register } from "tsx/esm/api";

register();
await import("./fakeThread.ts");
