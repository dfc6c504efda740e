/** How a page looks, judged in the browser: what is cut off, what lies on each other, what can hardly be seen, what axe finds. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Rules that axe finds broken and calls serious or critical, with the elements. */
export async function serious(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { axe: run } = window as unknown as {
      axe: { run(): Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await run.run();
    return violations
      .filter(({ impact }) => impact === "serious" || impact === "critical")
      .flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
  });
}

/** Elements whose text does not fit into them, or that stand out of the page. */
export function clipped(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const wide = document.documentElement.clientWidth;
    for (const one of document.querySelectorAll<HTMLElement>(
      "h1, h2, p, label, legend, dt, dd, li, span, button, summary",
    )) {
      const box = one.getBoundingClientRect();
      if (box.width === 0 || !one.checkVisibility()) continue;
      if (box.right > wide + 0.5 || box.left < -0.5) found.push(`outside: ${one.textContent}`);
      if (one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== "inline")
        found.push(`clipped: ${one.textContent}`);
    }
    for (const input of document.querySelectorAll<HTMLInputElement>("input"))
      if (input.scrollWidth > input.clientWidth + 1) found.push(`clipped: ${input.value}`);
    for (const text of document.querySelectorAll<SVGTextElement>("svg text")) {
      const box = text.getBoundingClientRect();
      const frame = (text.ownerSVGElement?.parentElement ?? document.body).getBoundingClientRect();
      if (box.width > 0 && (box.left < frame.left - 1 || box.right > frame.right + 1))
        found.push(`outside chart: ${text.textContent}`);
    }
    return found;
  });
}

/** Pairs of texts on the page that lie on each other: every line of every text in sight, in drawings and charts too. */
export function overlapping(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const lines: { text: string; box: DOMRect }[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      const { parentElement: parent } = node;
      const text = node.textContent?.trim() ?? "";
      if (text === "" || parent === null || parent.closest("noscript, script, option, title, caption") !== null)
        continue;
      if (!parent.checkVisibility({ visibilityProperty: true })) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) lines.push({ text, box });
    }
    for (const field of document.querySelectorAll<HTMLElement>("input:not([type=file]), select, textarea"))
      if (field.checkVisibility()) lines.push({ text: "a field", box: field.getBoundingClientRect() });
    const found: string[] = [];
    for (const [i, a] of lines.entries())
      for (const b of lines.slice(i + 1)) {
        const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        if (across > 0.5 && down > 3) found.push(`${a.text} | ${b.text}`);
      }
    return found;
  });
}

/** Texts and lines of drawings and charts that hardly stand out from the card they lie on (WCAG: 4.5 and 3). */
export function faint(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const pixel = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
    const luminance = (color: string): number => {
      if (pixel === null) throw new Error("no canvas");
      pixel.fillStyle = color;
      pixel.fillRect(0, 0, 1, 1);
      const [r = 0, g = 0, b = 0] = [...pixel.getImageData(0, 0, 1, 1).data].map((part) => {
        const share = part / 255;
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const contrast = (a: string, b: string): number => {
      const [low = 0, high = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
      return (high + 0.05) / (low + 0.05);
    };
    const found: string[] = [];
    const look = (selector: string, part: "fill" | "stroke", least: number) => {
      for (const one of document.querySelectorAll<SVGElement>(selector)) {
        const card = getComputedStyle(one.closest(".panel") ?? document.body).backgroundColor;
        const color = getComputedStyle(one)[part];
        if (contrast(color, card) < least) found.push(`${selector} ${one.textContent}: ${color} on ${card}`);
      }
    };
    look(".chart text", "fill", 4.5);
    look(".chart .curve path", "stroke", 3);
    look(".ring .rim", "stroke", 3);
    look(".sheet .plate, .sheet .edges, .dimension-lines path, .sheet .light-line", "stroke", 3);
    return found;
  });
}

export const scrollsSideways = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);

/** Waits until every chart has been drawn for the room it has. */
export async function drawn(page: Page): Promise<void> {
  await page.waitForFunction(() =>
    [...document.querySelectorAll(".plot, .plane-figure, .figure-of")].every((plot) => {
      const width = Number(plot.querySelector("svg")?.getAttribute("width"));
      return Math.abs(width - plot.clientWidth) <= 1;
    }),
  );
}
