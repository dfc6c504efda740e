/** `npm run deep`: thousands of cases, minutes long, not part of `npm test`. */
import { defineConfig } from "vitest/config";

// A guard against hanging: thousands of cases take their time.
export default defineConfig({ test: { include: ["tests/deep/**/*.test.ts"], testTimeout: 600_000 } });
