// The 3D view: the model, a camera, and the controls round the canvas.

const OVERHEAD = "ceiling and side walls";
const ORIGINALLY_OFF = new Set(["skins", "clearances", OVERHEAD]);
/** What a part is told by, in this order; other facts are for programs. */
const FACTS = ["mark", "id", "kind", "material", "stock", "cut length", "stage", "datum"];
const HIGHLIGHT = [0.95, 0.42, 0.05, 0.6];
const NEW = [0.95, 0.6, 0.2, 0.28];
const PLAIN = [0, 0, 0, 0];

const byId = (id) => document.getElementById(id);
const calm = matchMedia("(prefers-reduced-motion: reduce)");

function colorOf(name) {
  const text = getComputedStyle(document.documentElement).getPropertyValue(name).trim();
  const value = Number.parseInt(text.slice(1), 16);
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255].map((channel) => channel / 255);
}

function boxRound(bodies) {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const body of bodies) {
    for (let axis = 0; axis < 3; axis += 1) {
      low[axis] = Math.min(low[axis], body.low[axis]);
      high[axis] = Math.max(high[axis], body.high[axis]);
    }
  }
  return { low, high };
}

/** Starts the view; false where the browser cannot show it. */
function startViewer() {
  const canvas = byId("canvas");
  const model = readModel(byId("model-data").textContent.trim());
  let painter = painterOf(canvas, model);
  if (!painter || model.bodies.length === 0) {
    return false;
  }
  byId("model").hidden = false;

  // what stands between the eye and the chase in most views has a switch of its own
  for (const body of model.bodies.filter((it) => ["ceiling", "side wall"].includes(it.facts.kind))) {
    body.group = OVERHEAD;
  }
  const axis = Number(byId("view").dataset.axis) / 1000;
  const groups = [...new Set(model.bodies.map((body) => body.group))];
  const off = new Set(groups.filter((group) => ORIGINALLY_OFF.has(group)));
  const steps = ["what is already there", ...model.steps];
  const stageOf = (body) => Math.max(0, steps.indexOf(body.facts.stage ?? ""));
  let step = steps.length - 1;
  let cutting = false;
  let marked = new Set();
  let spot = null;

  const built = model.bodies.filter((body) => !["room", "clearances", OVERHEAD].includes(body.group));
  const whole = boxRound(built.length > 0 ? built : model.bodies);
  const aspect = () => Math.max(0.1, canvas.clientWidth / Math.max(1, canvas.clientHeight));
  let camera = fitted(whole, ...VIEWS.corner.slice(0, 2), aspect());

  const isShown = (body) => marked.has(body) || (!off.has(body.group) && stageOf(body) <= step);
  const isNew = (body) => step < steps.length - 1 && step > 0 && stageOf(body) === step;
  const shown = () =>
    model.bodies.filter(isShown).map((body) => ({
      body,
      marked: marked.has(body),
      tint: marked.has(body) ? HIGHLIGHT : isNew(body) ? NEW : PLAIN,
    }));

  let asked = false;
  function ask() {
    if (!asked) {
      asked = true;
      requestAnimationFrame(() => {
        asked = false;
        draw();
      });
    }
  }

  function viewOf() {
    const lens = lensOf(camera, aspect());
    return { ...lens, axis, cutting, ground: colorOf("--ground"), mark: [0.9, 0.3, 0] };
  }

  function draw() {
    const ratio = Math.min(2, devicePixelRatio || 1);
    const width = Math.max(1, Math.round(canvas.clientWidth * ratio));
    const height = Math.max(1, Math.round(canvas.clientHeight * ratio));
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
    }
    const view = viewOf();
    painter.paint(view, shown());
    const words = inWords();
    if (byId("depicted").textContent !== words) {
      byId("depicted").textContent = words;
    }
    const marker = byId("marker");
    const at = spot ? through(view.seen, spot) : [0, 0, 0, -1];
    marker.hidden = at[3] <= 0;
    if (!marker.hidden) {
      const left = (at[0] / at[3] / 2 + 0.5) * canvas.clientWidth;
      const top = (0.5 - at[1] / at[3] / 2) * canvas.clientHeight;
      marker.style.transform = `translate(${left}px, ${top}px)`;
    }
  }

  /** What the picture shows, for who cannot see it. */
  function inWords() {
    const names = (wanted) => groups.filter(wanted).join(", ") || "nothing";
    const open = cutting ? ", cut through the middle of the unit" : "";
    const chosen = [...marked].map((body) => body.facts.id).join(", ");
    return [
      `Seen from ${sideInWords(camera)}${open}.`,
      `Shown: ${names((group) => !off.has(group))}. Not shown: ${names((group) => off.has(group))}.`,
      step === steps.length - 1 ? "All is built." : `Built up to: ${steps[step]}.`,
      chosen ? `Marked: ${chosen}.` : "",
    ].join(" ");
  }

  // cameras

  let flight = 0;
  function fly(to) {
    flight += 1;
    const own = flight;
    const from = camera;
    if (calm.matches) {
      camera = to;
      ask();
      return;
    }
    const start = performance.now();
    const onward = (now) => {
      if (own !== flight) {
        return;
      }
      const share = Math.max(0, Math.min(1, (now - start) / 350));
      camera = between(from, to, share * share * (3 - 2 * share));
      draw();
      if (share < 1) {
        requestAnimationFrame(onward);
      }
    };
    requestAnimationFrame(onward);
  }

  function move(to) {
    flight += 1;
    camera = to;
    ask();
  }

  function cut(on) {
    cutting = on;
    byId("cut").checked = on;
    ask();
  }

  function goTo(name) {
    const [round, up, open] = VIEWS[name];
    cut(open);
    const left = { ...whole, low: [axis, whole.low[1], whole.low[2]] };
    fly(fitted(open ? left : whole, round, up, aspect()));
  }

  for (const button of document.querySelectorAll("[data-view]")) {
    button.addEventListener("click", () => goTo(button.dataset.view));
  }
  for (const button of document.querySelectorAll("[data-turn]")) {
    const [round, up] = button.dataset.turn.split(" ").map(Number);
    button.addEventListener("click", () => fly(turnedBy(camera, round, up)));
  }
  for (const button of document.querySelectorAll("[data-zoom]")) {
    button.addEventListener("click", () => fly(zoomedBy(camera, Number(button.dataset.zoom))));
  }
  byId("cut").addEventListener("change", (event) => cut(event.target.checked));

  // groups

  const boxes = new Map();
  for (const group of groups) {
    const label = document.createElement("label");
    label.className = "check";
    const box = document.createElement("input");
    box.type = "checkbox";
    box.checked = !off.has(group);
    box.value = group;
    const text = document.createElement("span");
    text.textContent = group;
    label.append(box, text);
    byId("groups").append(label);
    box.addEventListener("change", () => switchGroup(group, box.checked));
    boxes.set(group, box);
  }

  function switchGroup(group, on) {
    if (on) {
      off.delete(group);
    } else {
      off.add(group);
    }
    boxes.get(group).checked = on;
    ask();
  }

  // build order

  const slider = byId("step");
  slider.max = String(steps.length - 1);
  function stepTo(number) {
    step = Math.max(0, Math.min(steps.length - 1, number));
    slider.value = String(step);
    const name = step === steps.length - 1 ? `${steps[step]}: all is built` : steps[step];
    byId("step-name").textContent = `${step} of ${steps.length - 1}: ${name}`;
    slider.setAttribute("aria-valuetext", name);
    ask();
  }
  function walkTo(number) {
    stepTo(number);
    // what arrives at this step has to be seen
    for (const body of model.bodies) {
      if (isNew(body) && off.has(body.group)) {
        switchGroup(body.group, true);
      }
    }
  }
  slider.addEventListener("input", () => walkTo(Number(slider.value)));
  byId("step-back").addEventListener("click", () => walkTo(step - 1));
  byId("step-on").addEventListener("click", () => walkTo(step + 1));
  stepTo(step);

  // parts

  const list = byId("part");
  for (const group of groups) {
    const branch = document.createElement("optgroup");
    branch.label = group;
    for (const body of model.bodies.filter((it) => it.group === group)) {
      const option = document.createElement("option");
      option.value = String(body.number);
      option.textContent = body.facts.mark ? `${body.facts.id} (${body.facts.mark})` : body.facts.id;
      branch.append(option);
    }
    list.append(branch);
  }

  function tell(text) {
    byId("told").textContent = text;
  }

  function choose(body) {
    marked = new Set(body ? [body] : []);
    spot = null;
    list.value = body ? String(body.number) : "";
    const facts = body ? FACTS.filter((name) => body.facts[name]) : [];
    byId("facts").replaceChildren(
      ...facts.map((name) => {
        const pair = document.createElement("div");
        const term = document.createElement("dt");
        const value = document.createElement("dd");
        term.textContent = name;
        value.textContent = body.facts[name];
        pair.append(term, value);
        return pair;
      }),
    );
    const short = ["mark", "stock", "cut length"].map((name) => body?.facts[name]).filter(Boolean);
    tell(body ? [body.facts.id, ...short].join(" · ") : "");
    ask();
  }
  list.addEventListener("change", () => choose(model.bodies[Number(list.value) - 1] ?? null));

  function pick(x, y) {
    const width = canvas.clientWidth;
    const height = canvas.clientHeight;
    const ratio = Math.min(2, devicePixelRatio || 1);
    const view = viewOf();
    const pixel = onePixel((x / width) * 2 - 1, 1 - (y / height) * 2, width * ratio, height * ratio);
    // the pixel's own matrix does not change depth, so a cut is closed there too
    choose(painter.bodyAt({ ...view, seen: product(pixel, view.seen) }, shown()));
  }

  // pointers

  const pointers = new Map();
  let travelled = 0;
  canvas.addEventListener("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    pointers.set(event.pointerId, [event.offsetX, event.offsetY]);
    travelled = pointers.size > 1 ? Infinity : 0;
  });
  canvas.addEventListener("pointermove", (event) => {
    const before = pointers.get(event.pointerId);
    if (!before) {
      return;
    }
    const now = [event.offsetX, event.offsetY];
    const [right, down] = [now[0] - before[0], now[1] - before[1]];
    travelled += Math.hypot(right, down);
    const height = canvas.clientHeight;
    if (pointers.size === 2) {
      const other = [...pointers].find(([id]) => id !== event.pointerId)[1];
      const apart = (point) => Math.max(1, Math.hypot(point[0] - other[0], point[1] - other[1]));
      move(pannedBy(zoomedBy(camera, apart(before) / apart(now)), right / height / 2, -down / height / 2));
    } else if (event.shiftKey || event.buttons & 6) {
      move(pannedBy(camera, right / height, -down / height));
    } else if (travelled > 4) {
      move(turnedBy(camera, (-right / height) * 4, (down / height) * 3));
    }
    pointers.set(event.pointerId, now);
  });
  const lifted = (event) => {
    const was = pointers.delete(event.pointerId);
    if (was && event.type === "pointerup" && event.button === 0 && travelled <= 4) {
      pick(event.offsetX, event.offsetY);
    }
  };
  canvas.addEventListener("pointerup", lifted);
  canvas.addEventListener("pointercancel", lifted);
  canvas.addEventListener("contextmenu", (event) => event.preventDefault());
  canvas.addEventListener(
    "wheel",
    (event) => {
      // a page that is scrolled past must not be caught by the view
      if (document.activeElement === canvas || event.ctrlKey) {
        event.preventDefault();
        move(zoomedBy(camera, Math.exp(event.deltaY * 0.0015)));
      }
    },
    { passive: false },
  );
  canvas.addEventListener("keydown", (event) => {
    const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
    const way = ways[event.key];
    if (event.ctrlKey || event.metaKey || event.altKey) {
      return;
    }
    if (way && event.shiftKey) {
      move(pannedBy(camera, way[0] * 0.05, way[1] * 0.05));
    } else if (way) {
      move(turnedBy(camera, way[0] * 0.1, way[1] * 0.08));
    } else if (event.key === "+" || event.key === "=") {
      move(zoomedBy(camera, 0.85));
    } else if (event.key === "-") {
      move(zoomedBy(camera, 1 / 0.85));
    } else if (event.key === "Home") {
      goTo("corner");
    } else if (event.key === "Escape") {
      choose(null);
    } else {
      return;
    }
    event.preventDefault();
  });

  // places of findings

  for (const button of document.querySelectorAll(".show")) {
    button.addEventListener("click", () => {
      const ids = new Set(button.dataset.parts.split("\n"));
      const bodies = model.bodies.filter((body) => ids.has(body.facts.id));
      choose(null);
      marked = new Set(bodies);
      stepTo(steps.length - 1);
      cut(false);
      const box = boxRound(bodies.length > 0 ? bodies : built);
      if (button.dataset.at) {
        const [x, y, z] = button.dataset.at.split(" ").map((value) => Number(value) / 1000);
        spot = [x, z, -y];
      } else {
        spot = mix(box.low, box.high, 0.5);
      }
      const near = { low: add(spot, [-0.6, -0.6, -0.6]), high: add(spot, [0.6, 0.6, 0.6]) };
      byId("model").scrollIntoView({ behavior: calm.matches ? "auto" : "smooth", block: "start" });
      canvas.focus({ preventScroll: true });
      tell(button.getAttribute("aria-label").replace("Show in the 3D view: ", ""));
      fly(fitted(near, camera.round, Math.max(0.1, Math.min(0.9, camera.up)), aspect()));
    });
  }

  // what else changes the picture

  new ResizeObserver(ask).observe(canvas);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", ask);
  canvas.addEventListener("webglcontextlost", (event) => event.preventDefault());
  canvas.addEventListener("webglcontextrestored", () => {
    painter = painterOf(canvas, model);
    ask();
  });
  ask();
  return true;
}
