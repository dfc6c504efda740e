import { defineConfig } from "vite";
import solid from "vite-plugin-solid";
import { plainPairs } from "./config/plainPairs.ts";

export default defineConfig({
  root: "src/web",
  base: "/",
  plugins: [plainPairs, solid()],
  worker: { format: "es", plugins: () => [plainPairs] },
  build: {
    outDir: "../../dist/web",
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
});
