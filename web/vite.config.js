import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";

// While developing, the pages come from here and the answers from `ringwright open`.
const program = process.env.RINGWRIGHT ?? "http://127.0.0.1:7474";

export default defineConfig({
  plugins: [svelte()],
  build: {
    target: "es2022",
    // The server's content rule allows no inline data for fonts.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 700,
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: "three", test: /node_modules[\\/]three/ }] } } },
  },
  server: { proxy: { "/api": program } },
});
