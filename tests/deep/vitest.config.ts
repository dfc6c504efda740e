/** `npm run deep`: thousands of cases, minutes long, not part of `npm test`. */
import { defineConfig } from "vitest/config";

export default defineConfig({ test: { include: ["tests/deep/**/*.test.ts"] } });
