/** A page of another origin, open in the same browser, tries to read and to change what the app keeps. */
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { openBrowser } from "../../scripts/browser.ts";

let browser: Browser;
let other: Server;
let page: Page;
beforeAll(async () => {
  browser = await openBrowser();
  other = createServer((_, response) => response.setHeader("content-type", "text/html").end("<title>another</title>"));
  await new Promise<void>((listening) => other.listen(0, "127.0.0.1", listening));
  page = await browser.newPage({ locale: "en-GB" });
  await page.goto(`http://localhost:${(other.address() as AddressInfo).port}/`);
});
afterAll(async () => {
  await browser.close();
  await new Promise((closed) => other.close(closed));
});

const app = () => inject("address");
/** The app's own page sees the shelf: how many projects are kept. */
async function keptProjects(): Promise<number> {
  const own = await browser.newPage({ locale: "en-GB" });
  await own.goto(app());
  const count = await own.evaluate(async () => (await (await fetch("/api/library")).json()).projects.length as number);
  await own.close();
  return count;
}

test("it reads nothing: no answer, no opaque body, no script, no stream, no frame", async () => {
  const tried = await page.evaluate(async (address) => {
    const fails = async (what: () => Promise<unknown>) => {
      try {
        return await what();
      } catch {
        return "nothing";
      }
    };
    const element = (tag: "script" | "img", src: string) =>
      new Promise((said) => {
        const one = document.createElement(tag);
        one.onload = () => said("loaded");
        one.onerror = () => said("nothing");
        one.src = src;
        document.body.append(one);
      });
    return {
      project: await fails(async () => (await fetch(`${address}api/project`)).text()),
      library: await fails(async () => (await fetch(`${address}api/library`, { credentials: "include" })).text()),
      opaque: await fails(async () => (await fetch(`${address}api/project`, { mode: "no-cors" })).text()),
      script: await element("script", `${address}api/project`),
      picture: await element("img", `${address}icon.svg`),
      stream: await new Promise((said) => {
        const source = new EventSource(`${address}api/changes`);
        source.onmessage = () => said("heard");
        source.onerror = () => {
          source.close();
          said("nothing");
        };
      }),
    };
  }, app());
  expect(tried).toEqual({
    project: "nothing",
    library: "nothing",
    opaque: "nothing",
    script: "nothing",
    picture: "nothing",
    stream: "nothing",
  });
});

test("it can't put the app into a frame, nor keep hold of it as a window", async () => {
  const refused = page.waitForEvent("console", { predicate: (said) => said.type() === "error" });
  const framed = await page.evaluate(
    (address) =>
      new Promise<string>((said) => {
        const frame = document.createElement("iframe");
        frame.onload = () => {
          try {
            said(frame.contentDocument?.title ?? "closed");
          } catch {
            said("closed");
          }
        };
        frame.src = address;
        document.body.append(frame);
      }),
    app(),
  );
  await refused;
  expect(framed).toBe("closed");
});

test("it changes nothing: not by a form, not by fetch, not with a guessed token", async () => {
  const before = await keptProjects();
  const statuses = await page.evaluate(async (address) => {
    const body = JSON.stringify({ text: '{ "format": "glassdrum-project", "version": 1 }', says: "from outside" });
    const send = async (options: RequestInit) => {
      try {
        return (await fetch(`${address}api/projects`, { method: "POST", body, ...options })).status;
      } catch {
        return "nothing";
      }
    };
    return [
      await send({ mode: "no-cors" }),
      await send({ headers: { "content-type": "application/json" } }),
      await send({ headers: { "x-glassdrum-token": "guess" } }),
    ];
  }, app());
  expect(statuses).toEqual(["nothing", "nothing", "nothing"]);
  const form = await browser.newPage({ locale: "en-GB" });
  await form.goto(page.url());
  await form.setContent(
    `<form method="post" enctype="text/plain" action="${app()}api/projects"><input name='{"text":"' value='"}'></form>`,
  );
  const answered = form.waitForResponse((response) => response.url().endsWith("/api/projects"));
  await form.evaluate(() => document.querySelector("form")?.submit());
  expect((await answered).status()).toBe(403);
  await form.close();
  expect(await keptProjects()).toBe(before);
});
