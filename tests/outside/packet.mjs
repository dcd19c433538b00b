// Opens packet.html of each folder from disk in a browser (Chromium, headless, its WebGL in software) and holds it
// against what it promises: no request, no error, a 3D view that draws and obeys, nothing wider than the window,
// every control within reach of the keyboard, and paper that cuts no row of a table.
//
// The browser is Debian's; CHROMIUM names another. Paper is read back with poppler's pdftotext.

import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { inflateSync } from "node:zlib";
import { chromium } from "playwright-core";

let passed = 0;
let failed = 0;
let folder = "";

function check(holds, what) {
  if (holds) {
    passed += 1;
  } else {
    failed += 1;
    console.log(`packet: FAILED: ${folder}: ${what}`);
  }
}

const SWITCHES = [
  "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync",
];
const SOFTWARE = ["--use-angle=swiftshader", "--enable-unsafe-swiftshader"];

/** The pixels of a PNG with 8 bits in 3 or 4 channels, as browsers write screenshots (ISO/IEC 15948). */
function pixelsOf(png) {
  let at = 8;
  let header = null;
  const data = [];
  while (at < png.length) {
    const length = png.readUInt32BE(at);
    const kind = png.toString("latin1", at + 4, at + 8);
    const body = png.subarray(at + 8, at + 8 + length);
    if (kind === "IHDR") header = body;
    if (kind === "IDAT") data.push(body);
    at += 12 + length;
  }
  const width = header.readUInt32BE(0);
  const height = header.readUInt32BE(4);
  const channels = header[9] === 6 ? 4 : 3;
  const raw = inflateSync(Buffer.concat(data));
  const stride = width * channels;
  const rows = Buffer.alloc(height * stride);
  for (let y = 0; y < height; y += 1) {
    const filter = raw[y * (stride + 1)];
    for (let x = 0; x < stride; x += 1) {
      const left = x >= channels ? rows[y * stride + x - channels] : 0;
      const up = y > 0 ? rows[(y - 1) * stride + x] : 0;
      const corner = x >= channels && y > 0 ? rows[(y - 1) * stride + x - channels] : 0;
      const guess = left + up - corner;
      const [a, b, c] = [left, up, corner].map((value) => Math.abs(guess - value));
      const paeth = a <= b && a <= c ? left : b <= c ? up : corner;
      const before = [0, left, up, (left + up) >> 1, paeth][filter];
      rows[y * stride + x] = (raw[y * (stride + 1) + 1 + x] + before) & 255;
    }
  }
  return { width, height, channels, rows };
}

/** How many pixels differ from the one in the corner, and how many colors there are. */
function drawn(png) {
  const { rows, channels } = pixelsOf(png);
  const colors = new Set();
  let other = 0;
  for (let at = 0; at < rows.length; at += channels) {
    colors.add((rows[at] << 16) | (rows[at + 1] << 8) | rows[at + 2]);
    other += rows[at] !== rows[0] || rows[at + 1] !== rows[1] || rows[at + 2] !== rows[2];
  }
  return { share: other / (rows.length / channels), colors: colors.size };
}

/** The share of pixels that two pictures of one size do not have in common. */
function difference(first, second) {
  const [a, b] = [pixelsOf(first), pixelsOf(second)];
  let differ = 0;
  for (let at = 0; at < a.rows.length; at += a.channels) {
    differ += Math.abs(a.rows[at] - b.rows[at]) + Math.abs(a.rows[at + 1] - b.rows[at + 1]) > 12;
  }
  return differ / (a.rows.length / a.channels);
}

async function settled(page) {
  await page.waitForTimeout(550);
}

const shotOf = (page) => page.locator("#canvas").screenshot();

async function viewWorks(page) {
  check(await page.locator("#model").isVisible(), "the 3D view is there");
  check(!(await page.locator(".still").isVisible()), "no still picture beside the 3D view");
  const first = await shotOf(page);
  const ink = drawn(first);
  check(ink.share > 0.1 && ink.colors > 50, `the view draws: ${JSON.stringify(ink)}`);

  // turned by mouse, by key and by button; back where it was by its named view
  const box = await page.locator("#canvas").boundingBox();
  const middle = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(...middle);
  await page.mouse.down();
  await page.mouse.move(middle[0] + 120, middle[1] + 20, { steps: 6 });
  await page.mouse.up();
  await settled(page);
  let before = first;
  let after = await shotOf(page);
  check(difference(before, after) > 0.03, "a drag turns the view");
  const changes = [
    ["an arrow key turns it", () => page.locator("#canvas").press("ArrowLeft")],
    ["plus zooms in", () => page.locator("#canvas").press("+")],
    ["Shift and an arrow move it", () => page.locator("#canvas").press("Shift+ArrowUp")],
    ["the wheel zooms once it is chosen", () => page.mouse.wheel(0, 400)],
    ["a button turns it", () => page.getByRole("button", { name: "Turn right" }).click()],
    ["a named view turns it", () => page.getByRole("button", { name: "Front", exact: true }).click()],
    ["a cut opens it", () => page.getByRole("button", { name: "Cut open" }).click()],
  ];
  for (const [what, act] of changes) {
    before = after;
    await act();
    await settled(page);
    after = await shotOf(page);
    check(difference(before, after) > 0.01, what);
  }
  check(await page.locator("#cut").isChecked(), "the cut's box is ticked in the view that is cut open");
  await page.getByRole("button", { name: "Corner", exact: true }).click();
  await settled(page);
  check(difference(first, await shotOf(page)) < 0.002, "the first view comes back");
}

async function groupsSwitch(page) {
  const boxes = page.locator("#groups input");
  const names = await boxes.evaluateAll((all) => all.map((it) => it.value));
  check(["framing", "unit", "vent", "room"].every((it) => names.includes(it)), `groups: ${names}`);
  for (const name of ["framing", "clearances", "skins"]) {
    const box = page.locator(`#groups input[value="${name}"]`);
    const before = await shotOf(page);
    await box.click();
    await settled(page);
    const after = await shotOf(page);
    check(difference(before, after) > 0.01, `${name} switches`);
    await box.click();
    await settled(page);
    check(difference(before, await shotOf(page)) < 0.002, `${name} switches back`);
  }
}

async function buildOrderSteps(page) {
  const slider = page.locator("#step");
  const most = Number(await slider.getAttribute("max"));
  check(most >= 10, `${most} steps`);
  const name = () => page.locator("#step-name").textContent();
  const whole = await shotOf(page);
  await slider.focus();
  await page.keyboard.press("Home");
  await settled(page);
  const bare = await shotOf(page);
  check(difference(whole, bare) > 0.02, "nothing is built at the first step");
  check((await name()).includes("already there"), "the first step is what is already there");
  const seen = [];
  for (let step = 0; step < most; step += 1) {
    await page.getByRole("button", { name: "One step on" }).click();
    seen.push(await name());
  }
  const place = (what) => seen.findIndex((it) => it.includes(what));
  check(place("walls") < place("hold for the framing inspection"), "walls before the framing inspection");
  check(place("hold for the gas test") < place(": board"), "the gas test before board");
  check(place("hold for the framing inspection") < place(": board"), "the framing inspection before board");
  check(place("hold for the gas test") >= 0, "there is a hold for the gas test");
  await page.locator('#groups input[value="skins"]').uncheck();
  await settled(page);
  check(difference(whole, await shotOf(page)) < 0.002, "all is built at the last step");
}

async function partsArePicked(page) {
  await page.getByRole("button", { name: "Front", exact: true }).click();
  await settled(page);
  const box = await page.locator("#canvas").boundingBox();
  const facts = () => page.locator("#facts").innerText();
  let mark = "";
  // across the picture until a stick is hit
  for (let share = 0.3; share < 0.7 && !mark; share += 0.015) {
    await page.mouse.click(box.x + box.width * share, box.y + box.height * 0.6);
    mark = /mark\s+(S\d+[LR]?)/.exec(await facts())?.[1] ?? "";
  }
  check(mark !== "", "a stick can be picked");
  const told = await facts();
  check(/stock\s+\S+/.test(told) && /cut length\s+\S+/.test(told), `stock and cut length: ${told}`);
  const row = page.locator("#cuts tbody tr", { has: page.locator("th", { hasText: new RegExp(`^${mark}$`) }) });
  const length = /cut length\s+(.+)/.exec(told)[1].trim();
  check((await row.first().innerText()).length > 0, `${mark} is in the cut list`);
  const chosen = await page.locator("#part").evaluate((it) => it.selectedOptions[0].textContent);
  check(chosen.includes(`(${mark})`), "the list shows what was picked");
  check(length.length > 0, "the cut length is told");
  // the same by keyboard: the list
  const other = await page.locator("#part option").nth(2).getAttribute("value");
  await page.locator("#part").selectOption(other);
  check((await facts()).includes("stage"), "a part can be chosen from the list");
  await page.locator("#canvas").press("Escape");
  check((await facts()) === "", "Escape lets go of it");
  await page.getByRole("button", { name: "Corner", exact: true }).click();
  await settled(page);
}

/** Under board nothing is seen: switched off, what stands behind it leaves the lower part of the picture as it was. */
async function boardCovers(page) {
  const groups = async (on) => {
    for (const name of ["framing", "platform"]) {
      await page.locator(`#groups input[value="${name}"]`).setChecked(on);
    }
    await settled(page);
  };
  const size = page.viewportSize();
  // in a small view a pixel is wider than board is thick
  await page.setViewportSize({ width: 760, height: 620 });
  await page.getByRole("button", { name: "Corner", exact: true }).click();
  await page.locator('#groups input[value="skins"]').check();
  await settled(page);
  const covered = pixelsOf(await shotOf(page));
  await groups(false);
  const bare = pixelsOf(await shotOf(page));
  // the front's and the side's own pixels: below the top plates
  let through = 0;
  for (let at = Math.floor(covered.height * 0.36) * covered.width * covered.channels; at < covered.rows.length; at += 1) {
    through += Math.abs(covered.rows[at] - bare.rows[at]) > 12 ? 1 : 0;
  }
  check(through === 0, `what stands behind board shows through in ${through} places`);
  await groups(true);
  await page.locator('#groups input[value="skins"]').uncheck();
  await page.setViewportSize(size);
  await settled(page);
}

/** What is picked all over the view, and how often. */
async function pickedAllOver(page) {
  const box = await page.locator("#canvas").boundingBox();
  const found = new Map();
  for (let across = 0.2; across < 0.8; across += 0.06) {
    for (let down = 0.1; down < 0.95; down += 0.085) {
      await page.mouse.click(box.x + box.width * across, box.y + box.height * down);
      const part = page.locator("#part");
      const name = await part.evaluate((it) => it.selectedOptions[0].textContent.split(" (")[0]);
      found.set(name, (found.get(name) ?? 0) + 1);
    }
  }
  await page.locator("#canvas").press("Escape");
  return found;
}

/** What is left of the cut is gone, and what is cut is closed: its middle can be touched. */
async function cutIsClosed(page) {
  await page.getByRole("button", { name: "Left", exact: true }).click();
  await settled(page);
  const whole = await pickedAllOver(page);
  await page.getByRole("button", { name: "Cut open" }).click();
  await settled(page);
  const open = await pickedAllOver(page);
  const left = (names) => [...names.keys()].filter((it) => it.startsWith("left side/"));
  check(left(whole).length > 0, "the left side is seen from the left");
  check(left(open).length === 0, `the left side is cut away: ${left(open)}`);
  const hits = open.get("unit/body/1") ?? 0;
  check(hits >= 3, `the unit is cut, and closed: touched ${hits} times`);
  await page.getByRole("button", { name: "Corner", exact: true }).click();
  await settled(page);
}

async function placesAreShown(page) {
  await page.locator("details").evaluateAll((all) => all.forEach((it) => it.setAttribute("open", "")));
  const buttons = page.locator(".show");
  const count = await buttons.count();
  check(count > 0, "verdicts have places");
  const before = await shotOf(page);
  await buttons.first().click();
  await settled(page);
  await page.waitForTimeout(400);
  const off = await page.evaluate(() => {
    const marker = document.getElementById("marker");
    const [view, place] = [document.getElementById("canvas"), marker].map((it) => it.getBoundingClientRect());
    return marker.hidden ? [NaN] : [place.x - view.x - view.width / 2, place.y - view.y - view.height / 2];
  });
  check(Math.hypot(...off) < 2, `the place is marked, in the middle: ${off}`);
  check(difference(before, await shotOf(page)) > 0.05, "the view jumps there");
  check(await page.locator("#canvas").evaluate((it) => it === document.activeElement), "the view has the focus");
}

async function nothingOverflows(page, width) {
  const wide = await page.evaluate(() => {
    const edge = document.documentElement.clientWidth;
    const out = [...document.querySelectorAll("body *")].filter((it) => {
      if (it.closest(".hidden, .skip, thead, #marker")) return false;
      const box = it.getBoundingClientRect();
      return box.width > 0 && (box.right > edge + 0.5 || box.left < -0.5);
    });
    const inside = [...document.querySelectorAll("button, td, th, .card, .step, label, fieldset")].filter(
      (it) => !it.closest("thead") && it.clientWidth > 0 && it.scrollWidth > it.clientWidth + 1,
    );
    const name = (it) => `${it.tagName}.${it.className} ${it.textContent.slice(0, 30)}`;
    return { page: document.documentElement.scrollWidth - edge, out: out.map(name), inside: inside.map(name) };
  });
  check(wide.page <= 0, `${width} px: the page is ${wide.page} px too wide`);
  check(wide.out.length === 0, `${width} px: outside of the window: ${wide.out.slice(0, 3)}`);
  check(wide.inside.length === 0, `${width} px: wider than its box: ${wide.inside.slice(0, 3)}`);
}

/** Every control takes the focus by Tab alone, in the order of the page, and shows it. */
async function keyboardReaches(page) {
  await page.reload();
  await settled(page);
  await page.evaluate(() => {
    document.querySelectorAll("details").forEach((it) => it.setAttribute("open", ""));
    window.wanted = [...document.querySelectorAll("a[href], button, input, select, summary, canvas")].filter(
      (it) => it.checkVisibility(),
    );
    window.seen = [];
    window.bare = [];
    document.addEventListener("focusin", (event) => {
      window.seen.push(window.wanted.indexOf(event.target));
      if (getComputedStyle(event.target).outlineStyle === "none") window.bare.push(event.target.outerHTML.slice(0, 80));
    });
  });
  const count = await page.evaluate(() => window.wanted.length);
  for (let at = 0; at < count; at += 1) {
    await page.keyboard.press("Tab");
  }
  const { seen, bare } = await page.evaluate(() => ({ seen: window.seen, bare: window.bare }));
  const missing = [...Array(count).keys()].filter((at) => !seen.includes(at));
  check(count > 50 && missing.length === 0, `the keyboard misses ${missing.length} of ${count} controls`);
  check(seen.every((at, place) => place === 0 || at > seen[place - 1]), "the keyboard goes in the order of the page");
  check(bare.length === 0, `focus is not seen on ${bare[0]}`);
}

/** Every control and picture has a name; headings go down one by one. */
async function screenReaderReads(page) {
  const faults = await page.evaluate(() => {
    const named = (it) =>
      it.getAttribute("aria-label") || it.getAttribute("alt") || it.labels?.[0]?.textContent.trim() || it.textContent.trim();
    const nameless = [...document.querySelectorAll("button, input, select, canvas, img")].filter((it) => !named(it));
    const levels = [...document.querySelectorAll("h1, h2, h3")].map((it) => Number(it.tagName[1]));
    const jumps = levels.filter((it, at) => at > 0 && it > levels[at - 1] + 1);
    const ids = [...document.querySelectorAll("[id]")].map((it) => it.id);
    const doubles = ids.filter((it, at) => ids.indexOf(it) !== at);
    return { nameless: nameless.map((it) => it.outerHTML.slice(0, 80)), jumps: jumps.length, first: levels[0], doubles };
  });
  check(faults.nameless.length === 0, `without a name: ${faults.nameless.slice(0, 3)}`);
  check(faults.first === 1 && faults.jumps === 0, "headings go down one by one");
  check(faults.doubles.length === 0, `ids used twice: ${faults.doubles}`);
  check((await page.locator("html").getAttribute("lang")) === "en", "the language is named");
}

/** The tree that a screen reader is given, without what it skips. */
async function treeOf(page) {
  const session = await page.context().newCDPSession(page);
  const { nodes } = await session.send("Accessibility.getFullAXTree");
  await session.detach();
  const byId = new Map(nodes.map((node) => [node.nodeId, node]));
  const told = nodes.filter((node) => !node.ignored);
  const text = (value) => value?.value?.trim() ?? "";
  const inside = (node) =>
    (node.childIds ?? []).flatMap((id) => {
      const child = byId.get(id);
      return child ? [...(child.ignored ? [] : [child]), ...inside(child)] : [];
    });
  return { of: (role) => told.filter((node) => node.role?.value === role), name: (node) => text(node.name), inside, text };
}

/**
 * The slider says its step in words, the same as stand beside it. Browsers hand `aria-valuetext` on in
 * different ways: as the value's text, as the value, or (Chromium 156, for any slider) not to this protocol at all;
 * then the attribute counts as the browser reflects it (`ariaValueText`, WAI-ARIA 1.2, section 10: from memory).
 */
async function sliderSaysItsStep(page) {
  const tree = await treeOf(page);
  const [slider] = tree.of("slider");
  const shown = (await page.locator("#step-name").textContent()).replace(/^\d+ of \d+: /, "");
  const told = [
    slider?.properties.find((it) => it.name === "valuetext")?.value?.value,
    slider?.value?.value,
    await page.locator("#step").evaluate((it) => it.ariaValueText),
  ];
  const words = told.filter((it) => /[a-z]{3}/.test(it ?? ""));
  const same = words.length > 0 && words.every((it) => it === shown);
  check(same, `screen reader: the slider says its step, ${shown}, not a number: ${told}`);
}

/** What a screen reader is told, as the browser computes it (WAI-ARIA 1.2, HTML-AAM 1.0: from memory). */
async function screenReaderIsTold(page) {
  await page.locator("details").evaluateAll((all) => all.forEach((it) => it.setAttribute("open", "")));
  const tree = await treeOf(page);
  const controls = ["button", "checkbox", "textbox", "slider", "combobox", "link", "image", "application", "table", "region", "navigation"];
  for (const role of controls) {
    const found = tree.of(role);
    const nameless = found.filter((node) => !tree.name(node));
    check(found.length > 0 && nameless.length === 0, `screen reader: ${nameless.length} of ${found.length} ${role} without a name`);
  }
  // whoever goes from control to control hears names alone, so no two may be alike
  for (const role of ["button", "checkbox", "textbox"]) {
    const names = tree.of(role).map(tree.name);
    const twice = names.filter((name, at) => names.indexOf(name) !== at);
    check(twice.length === 0, `screen reader: ${role} named twice: ${twice.slice(0, 2)}`);
  }
  const states = tree.of("checkbox").map((node) => node.properties.find((it) => it.name === "checked")?.value?.value);
  check(states.every((it) => ["true", "false"].includes(it)), "screen reader: every box says whether it is ticked");
  for (const key of ["Home", "ArrowRight", "End"]) {
    await page.locator("#step").press(key);
    await sliderSaysItsStep(page);
  }
  for (const table of tree.of("table")) {
    const inside = tree.inside(table);
    const count = (role) => inside.filter((node) => node.role?.value === role).length;
    const [rows, heads, named] = ["row", "columnheader", "rowheader"].map(count);
    const full = rows > 1 && heads > 1 && named === rows - 1;
    check(full, `screen reader: ${tree.name(table)}: ${rows} rows, ${heads} heads of columns, ${named} of rows`);
  }
  check(tree.of("main").length === 1 && tree.of("banner").length === 1, "screen reader: the page has its landmarks");
}

/** The 3D view says in words what it shows, and goes on saying so as it changes. */
async function viewIsTold(page) {
  const told = async () => {
    const tree = await treeOf(page);
    return tree.text(tree.of("application")[0]?.description);
  };
  await page.getByRole("button", { name: "Corner", exact: true }).click();
  await settled(page);
  check(/^Seen from the front right and above\./.test(await told()), `the corner in words: ${await told()}`);
  check(/All is built\..*arrow keys: turn/.test(await told()), "what is built, and the keys");
  await page.getByRole("button", { name: "Left", exact: true }).click();
  await settled(page);
  check((await told()).startsWith("Seen from the left."), `the left in words: ${await told()}`);
  await page.getByRole("button", { name: "Cut open" }).click();
  await page.locator('#groups input[value="skins"]').check();
  await settled(page);
  const open = await told();
  check(open.includes("cut through the middle of the unit") && /Shown:[^.]*skins/.test(open), `cut open in words: ${open}`);
  await page.locator('#groups input[value="skins"]').uncheck();
  await page.getByRole("button", { name: "From above" }).click();
  await settled(page);
  check((await told()).startsWith("Seen from above."), "from above in words");
  await page.getByRole("button", { name: "Corner", exact: true }).click();
  await settled(page);
}

/** The box round what is drawn over the ground, in pixels, within the view's frame. */
function inkBox(png) {
  const { width, height, channels, rows } = pixelsOf(png);
  const frame = 8;
  const at = (x, y) => (y * width + x) * channels;
  const ground = at(frame, frame);
  const box = { left: width, right: 0, top: height, bottom: 0 };
  for (let y = frame; y < height - frame; y += 1) {
    for (let x = frame; x < width - frame; x += 1) {
      const apart = [0, 1, 2].reduce((sum, it) => sum + Math.abs(rows[at(x, y) + it] - rows[ground + it]), 0);
      if (apart > 60) {
        box.left = Math.min(box.left, x);
        box.right = Math.max(box.right, x);
        box.top = Math.min(box.top, y);
        box.bottom = Math.max(box.bottom, y);
      }
    }
  }
  return box;
}

/** Fingers: one turns, two move and zoom by as much as they say, a tap chooses, and the page stays where it is. */
async function fingersObey(browser, address) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  const page = await context.newPage();
  const errors = watched(page, address);
  await page.goto(address);
  await page.locator("#canvas").evaluate((it) => it.scrollIntoView({ block: "center" }));
  for (const name of ["room", "fixed"]) {
    const box = page.locator(`#groups input[value="${name}"]`);
    if (await box.count()) await box.uncheck();
  }
  await page.locator("#canvas").evaluate((it) => it.scrollIntoView({ block: "center" }));
  await page.locator('[data-zoom="1.25"]').evaluate((it) => [1, 2, 3].forEach(() => it.click()));
  await settled(page);
  await settled(page);
  const session = await context.newCDPSession(page);
  const area = await page.locator("#canvas").boundingBox();
  const middle = [area.x + area.width / 2, area.y + area.height / 2];
  const touch = (type, ...offsets) =>
    session.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: offsets.map(([right, down], id) => ({ x: middle[0] + right, y: middle[1] + down, id })),
    });
  /** Fingers from some places to others, in steps, and off. */
  const stroke = async (from, to) => {
    await touch("touchStart", ...from);
    for (let step = 1; step <= 8; step += 1) {
      const share = step / 8;
      await touch("touchMove", ...from.map(([x, y], id) => [x + (to[id][0] - x) * share, y + (to[id][1] - y) * share]));
    }
    await touch("touchEnd");
    await settled(page);
  };
  /** How far the picture's box is off another, in pixels. */
  const off = async (box) => {
    const now = inkBox(await shotOf(page));
    return Math.max(...Object.keys(box).map((side) => Math.abs(now[side] - box[side])));
  };
  const place = () => page.evaluate(() => [scrollX, scrollY, visualViewport.scale]);
  const facts = () => page.locator("#facts").innerText();
  const began = await place();
  const first = await shotOf(page);

  await stroke([[-50, 0]], [[50, 0]]);
  const turned = await shotOf(page);
  check(difference(first, turned) > 0.03, "one finger turns the view");
  await stroke([[50, 0]], [[-50, 0]]);
  check(difference(first, await shotOf(page)) < 0.01, "one finger back turns it back");
  check((await facts()) === "", "a finger that moves chooses nothing");

  const before = inkBox(first);
  await stroke([[-50, 0], [50, 0]], [[-65, 0], [65, 0]]);
  const near = inkBox(await shotOf(page));
  const grown = (near.bottom - near.top) / (before.bottom - before.top);
  check(Math.abs(grown - 1.3) < 0.12, `a pinch from 100 to 130 px shows it ${grown.toFixed(2)} times as large`);
  await stroke([[-65, 0], [65, 0]], [[-50, 0], [50, 0]]);
  check((await off(before)) <= 1, `the pinch back shows it as it was, to ${await off(before)} px`);
  await stroke([[-50, 0], [50, 0]], [[-50, 40], [50, 40]]);
  const lower = inkBox(await shotOf(page));
  const moved = (lower.top + lower.bottom - before.top - before.bottom) / 2;
  check(Math.abs(moved - 40) < 6, `two fingers 40 px down move it ${moved} px`);
  await stroke([[-50, 40], [50, 40]], [[-50, 0], [50, 0]]);
  check((await off(before)) <= 1, `and back, to ${await off(before)} px`);
  check((await facts()) === "", "two fingers choose nothing");

  // one that is taken away by the system is forgotten: the next alone turns, and does not zoom
  await touch("touchStart", [-50, 0]);
  await touch("touchCancel");
  await stroke([[-50, 0]], [[50, 0]]);
  check((await off(inkBox(turned))) <= 1, "after a finger that was taken away the next one turns");
  check((await off(before)) > 5, "which shows");
  await stroke([[50, 0]], [[-50, 0]]);

  let chosen = "";
  for (let down = -20; down <= 80 && !chosen; down += 10) {
    await touch("touchStart", [0, down]);
    await touch("touchEnd");
    chosen = await facts();
  }
  check(/material/.test(chosen), "a tap chooses a part");
  check((await place()).join() === began.join(), `the page stays where it is: ${began}, ${await place()}`);
  check(errors.length === 0, `fingers: ${errors.slice(0, 3)}`);
  await context.close();
}

/** Contrast of every text against what lies behind it: 4.5 to 1, 3 to 1 where it is large (WCAG 2.2, 1.4.3). */
async function isReadable(page, scheme) {
  const poor = await page.evaluate(() => {
    const numbers = (text) => text.match(/[\d.]+/g).map(Number);
    const light = (color) => {
      const [r, g, b] = color.slice(0, 3).map((it) => {
        const value = it / 255;
        return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const ground = (it) => {
      for (let at = it; at; at = at.parentElement) {
        const color = numbers(getComputedStyle(at).backgroundColor);
        if (color.length < 4 || color[3] > 0.99) return color;
      }
      return [255, 255, 255];
    };
    const poor = [];
    for (const it of document.querySelectorAll("body *")) {
      const own = [...it.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim());
      if (!own || !it.checkVisibility() || it.closest("script, .hidden, svg, select")) continue;
      const style = getComputedStyle(it);
      const pair = [light(numbers(style.color)), light(ground(it))].sort((a, b) => b - a);
      const contrast = (pair[0] + 0.05) / (pair[1] + 0.05);
      const large = Number.parseFloat(style.fontSize) >= 24;
      if (contrast < (large ? 3 : 4.5)) poor.push(`${contrast.toFixed(2)} ${it.className} ${it.textContent.slice(0, 30)}`);
    }
    return poor;
  });
  check(poor.length === 0, `${scheme}: too faint: ${poor.slice(0, 3)}`);
}

async function entriesStay(page) {
  const tick = page.locator("#checklist input[type=checkbox]").first();
  const blank = page.locator("#checklist input[type=text]").first();
  await tick.check();
  await blank.fill("<b>12</b>");
  await blank.blur();
  await page.reload();
  check(await tick.isChecked(), "a tick stays");
  check((await blank.inputValue()) === "<b>12</b>", "a value stays");
  await tick.uncheck();
  await blank.fill("");
  await blank.blur();
}

/** Prints, with a token at the top and at the bottom of every row, and finds both on one page. */
async function paperCutsNoRow(page, scratch) {
  const rows = await page.evaluate(() => {
    const rows = [...document.querySelectorAll("tbody tr")];
    rows.forEach((row, number) => {
      const token = (text) => {
        const span = document.createElement("div");
        span.textContent = text;
        span.style.whiteSpace = "nowrap";
        span.style.fontSize = "5pt";
        return span;
      };
      const cells = [...row.children].filter((it) => getComputedStyle(it).display !== "none" && !it.matches(".place"));
      const tallest = cells.reduce((a, b) => (b.textContent.length > a.textContent.length ? b : a));
      tallest.prepend(token(`zqa${number}zq`));
      tallest.append(token(`zqb${number}zq`));
    });
    return rows.length;
  });
  const pdf = join(scratch, "packet.pdf");
  writeFileSync(pdf, await page.pdf({ format: "Letter", preferCSSPageSize: true }));
  const pages = execFileSync("pdftotext", ["-layout", pdf, "-"], { maxBuffer: 1 << 26 }).toString().split("\f");
  const pageOf = (token) => pages.findIndex((text) => text.replace(/\s/g, "").includes(token));
  const cut = [];
  for (let number = 0; number < rows; number += 1) {
    const [top, bottom] = [pageOf(`zqa${number}zq`), pageOf(`zqb${number}zq`)];
    if (top < 0 || top !== bottom) cut.push(`${number}: ${top} ${bottom}`);
  }
  check(rows > 50 && cut.length === 0, `paper: ${cut.length} of ${rows} rows are cut or missing: ${cut.slice(0, 3)}`);
  check(pages.length < 70, `paper: ${pages.length} pages`);
  check(!pages.join("").includes("Show in 3D"), "paper: no buttons");
}

async function withoutWebGl(address) {
  const browser = await launched(["--disable-3d-apis"]);
  const page = await browser.newPage();
  const errors = watched(page, address);
  await page.goto(address);
  check(await page.locator(".still img").isVisible(), "without WebGL a still picture stands in");
  check(!(await page.locator("#model").isVisible()), "without WebGL there are no controls");
  check((await page.locator(".show:visible").count()) === 0, "without WebGL no button leads nowhere");
  check(errors.length === 0, `without WebGL: ${errors}`);
  await browser.close();
}

/** Collects errors, and every request but that for the page itself. */
function watched(page, address) {
  const errors = [];
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("request", (request) => {
    if (request.url() !== address && !request.url().startsWith("data:")) errors.push(`asks for ${request.url()}`);
  });
  return errors;
}

function launched(more) {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    headless: true,
    args: [...SWITCHES, ...more],
  });
}

/** What is looked at in every packet. */
async function opens(browser, address) {
  for (const width of [390, 1400]) {
    for (const scheme of ["light", "dark"]) {
      const page = await browser.newPage({ viewport: { width, height: 860 }, colorScheme: scheme });
      const errors = watched(page, address);
      await page.goto(address);
      await settled(page);
      await nothingOverflows(page, `${width} ${scheme}`);
      await isReadable(page, `${width} ${scheme}`);
      check(errors.length === 0, `${width} ${scheme}: ${errors.slice(0, 3)}`);
      await page.close();
    }
  }
}

/** What is looked at in one. */
async function obeys(browser, address, scratch) {
  const page = await browser.newPage({ viewport: { width: 1400, height: 900 }, colorScheme: "light" });
  const errors = watched(page, address);
  await page.goto(address);
  await settled(page);
  for (const look of [viewWorks, groupsSwitch, buildOrderSteps, partsArePicked, cutIsClosed, placesAreShown]) {
    await look(page);
  }
  await screenReaderReads(page);
  await viewIsTold(page);
  await screenReaderIsTold(page);
  await boardCovers(page);
  await entriesStay(page);
  await settled(page);
  await keyboardReaches(page);
  const light = await shotOf(page);
  await page.emulateMedia({ colorScheme: "dark" });
  await settled(page);
  check(difference(light, await shotOf(page)) > 0.1, "the view turns dark with the page");
  await page.emulateMedia({ colorScheme: "light", reducedMotion: "reduce" });
  await page.getByRole("button", { name: "Left", exact: true }).click();
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  const at_once = await shotOf(page);
  await settled(page);
  check(difference(at_once, await shotOf(page)) < 0.002, "nothing flies where motion is not wanted");
  await paperCutsNoRow(page, scratch);
  check(errors.length === 0, `${errors.slice(0, 3)}`);
  await page.close();
}

const browser = await launched(SOFTWARE);
const scratch = mkdtempSync(join(tmpdir(), "packet-"));
try {
  const folders = process.argv.slice(2);
  for (const [number, path] of folders.entries()) {
    folder = basename(path);
    const address = pathToFileURL(resolve(path, "packet.html")).href;
    check(readFileSync(new URL(address)).length < 3_000_000, "smaller than 3 MB");
    await opens(browser, address);
    // each in another window, the last with everything
    if (number === folders.length - 1) {
      await obeys(browser, address, scratch);
      await fingersObey(browser, address);
      await withoutWebGl(address);
    }
  }
} finally {
  await browser.close();
  rmSync(scratch, { recursive: true });
}
console.log(`packet: ${passed} passed, ${failed} failed`);
process.exit(failed === 0 && passed > 0 ? 0 : 1);
