// The view as a whole: state, controls, mouse, touch and keys.

const STILL = window.matchMedia("(prefers-reduced-motion: reduce)");
const PERIOD = 1800;

class TurnView {
  constructor(root, frame) {
    this.root = root;
    this.frame = frame;
    this.find = (part) => root.querySelector(`[data-part="${part}"]`);
    this.stops = frame.ramp.map(fromHex);
    this.all = envelope(frame);
    this.eye = new Eye(frame.low, frame.high);
    this.solids = new Solids(this.find("solids"), frame);
    this.overlay = new Overlay(this.find("over"));
    this.hidden = new Set();
    this.picked = null;
    this.phase = 1;
    this.frames = { count: 0, script: 0 };
    this.controls();
    this.pointers();
    this.keys();
    new ResizeObserver(() => this.resize()).observe(this.find("stage"));
    this.resize();
    this.show(frame.first);
    this.card();
    root.hidden = false;
    this.resize();
    this.eye.stand("corner");
  }

  // ---- state ----

  /** The case or shape with a key; `envelope` for the worst of all. */
  show(key) {
    this.key = key;
    this.current = this.frame.cases.find((one) => one.key === key) ?? null;
    this.shape = this.current ?? this.frame.shapes.find((one) => one.key === key) ?? null;
    this.find("case").value = key;
    this.enlarge();
    this.repaint();
    this.say(this.shape ? `${this.shape.title}${this.shape.note ? `: ${this.shape.note}` : ""}` : "The worst of all cases, tube by tube");
    if (this.picked) this.card();
  }

  get forces() {
    if (this.current) return this.current.forces;
    return this.key === "envelope" ? this.all : null;
  }

  /** How much a movement is drawn larger than it is, read from the slider once for many joints. */
  enlarge() {
    this.enlarged = this.wish();
  }

  wish() {
    if (!this.shape) return 0;
    const wish = Number(this.find("scale").value) / 50;
    const most = this.shape.most || 1;
    const size = long(minus(this.frame.high, this.frame.low));
    return (wish * wish * 0.06 * size) / most;
  }

  wants(part) {
    return this.find(part)?.checked ?? false;
  }

  isShown(tube) {
    return !this.hidden.has(this.frame.tubes[tube].group);
  }

  movedJoint(joint) {
    const at = triple(this.frame.at, joint);
    return this.shape ? plus(at, times(triple(this.shape.moved, 2 * joint), this.enlarged * this.phase)) : at;
  }

  movedTube(tube, t) {
    return alongTube(this.frame, this.shape, this.enlarged * this.phase, tube, t);
  }

  /** New colours, new movements. */
  repaint() {
    this.paint = painted(this.frame, this.find("colour").value, this.forces, this.stops);
    const chosen = this.picked?.kind === "tube" ? this.picked.place : -1;
    this.solids.set(this.shape, this.paint.colours, (tube) => this.isShown(tube), chosen);
    this.legend();
    this.redraw();
  }

  legend() {
    const place = this.find("legend");
    place.replaceChildren();
    const { legend } = this.paint;
    if (!legend) {
      place.append(make("p", {}, this.key === "envelope" || this.current ? "" : "A shape has no forces: it shows how the frame moves, not how much."));
      return;
    }
    const keys = (legend.ramp ?? legend.keys).map(([colour, text]) => {
      const chip = make("i", { "aria-hidden": "true" });
      chip.style.background = colour;
      return make("li", {}, chip, text);
    });
    place.append(make("p", {}, legend.title), make("ul", {}, ...keys));
  }

  redraw() {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame((now) => {
      this.waiting = false;
      const begun = performance.now();
      const runs = this.find("move").checked && this.shape && this.enlarged > 0;
      this.phase = runs ? Math.sin((2 * Math.PI * now) / PERIOD) : 1;
      const ratio = window.devicePixelRatio || 1;
      this.solids.draw(this.eye, this.enlarged * this.phase, ratio);
      this.overlay.draw(this, ratio);
      this.find("enlarged").textContent = this.current ? `drawn ${shown(this.enlarged)} times as large` : this.shape ? "a shape without a size" : "at rest";
      this.frames = { count: this.frames.count + 1, script: performance.now() - begun };
      this.root.dataset.draws = this.solids.draws;
      this.root.dataset.scriptMs = this.frames.script.toFixed(2);
      if (runs) this.redraw();
    });
  }

  resize() {
    const stage = this.find("stage");
    const [w, h] = [stage.clientWidth, stage.clientHeight];
    if (w === 0 || h === 0) return;
    const ratio = window.devicePixelRatio || 1;
    for (const canvas of [this.find("solids"), this.find("over")]) {
      canvas.width = Math.round(w * ratio);
      canvas.height = Math.round(h * ratio);
    }
    const first = this.eye.size[0] === 1;
    const grown = w / this.eye.size[0];
    this.eye.size = [w, h];
    if (first) this.eye.fit();
    else this.eye.scale *= grown;
    this.redraw();
  }

  say(words) {
    this.find("said").textContent = words;
  }

  /** Chooses a tube or a joint; `null` for nothing. */
  pick(kind, place) {
    this.picked = kind ? { kind, place } : null;
    this.card();
    this.repaint();
    if (!kind) return;
    const name = kind === "tube" ? this.frame.tubes[place].name : this.frame.joints[place];
    const use = kind === "tube" && this.forces ? `, utilisation ${shown(this.forces[place * QUANTITIES + USE_OF])}` : "";
    this.say(`${kind} ${name}${use}`);
  }

  card() {
    const place = this.find("card");
    place.replaceChildren();
    if (!this.picked) {
      place.append(make("p", {}, "Click a tube or a joint, or search for it: its forces in every case stand here."));
      return;
    }
    const made = this.picked.kind === "tube" ? tubeCard : jointCard;
    place.append(...made(this, this.picked.place));
  }

  /** Chooses by name; says so where nothing has it. */
  seek(name) {
    const wanted = name.trim();
    const tube = this.frame.tubes.findIndex((one) => one.name === wanted);
    const joint = this.frame.joints.indexOf(wanted);
    if (tube >= 0) this.pick("tube", tube);
    else if (joint >= 0) this.pick("joint", joint);
    else if (wanted) this.say(`No tube and no joint is called ${wanted}.`);
    return tube >= 0 || joint >= 0;
  }

  // ---- controls ----

  controls() {
    const { frame } = this;
    const select = this.find("case");
    const options = (list) => list.map((one) => make("option", { value: one.key }, one.title));
    select.append(make("option", { value: "rest" }, "The frame at rest"));
    if (frame.cases.length) {
      select.append(make("option", { value: "envelope" }, "The worst of all cases"), make("optgroup", { label: "Load cases" }, ...options(frame.cases)));
    }
    const kinds = [...new Set(frame.shapes.map((one) => one.kind))];
    for (const kind of kinds) select.append(make("optgroup", { label: kind }, ...options(frame.shapes.filter((one) => one.kind === kind))));
    select.addEventListener("change", () => this.show(select.value));
    if (!frame.worth) this.find("colour").querySelector('[value="worth"]').remove();
    this.find("colour").addEventListener("change", () => this.repaint());
    this.find("scale").addEventListener("input", () => {
      this.enlarge();
      this.redraw();
    });
    this.find("move").addEventListener("change", () => this.redraw());
    if (STILL.matches) this.find("move").checked = false;
    for (const part of ["names", "numbers", "loads", "reactions", "mounts", "panels", "bodies", "masses"]) {
      this.find(part)?.addEventListener("change", () => this.redraw());
    }
    for (const button of this.root.querySelectorAll("[data-stand]")) {
      button.addEventListener("click", () => {
        this.eye.stand(button.dataset.stand);
        this.redraw();
      });
    }
    const groups = this.find("groups");
    frame.groups.forEach((name, group) => {
      const box = make("input", { type: "checkbox" });
      box.checked = true;
      box.addEventListener("change", () => {
        if (box.checked) this.hidden.delete(group);
        else this.hidden.add(group);
        this.repaint();
      });
      groups.append(make("label", {}, box, ` ${name || "no group"}`));
    });
    const names = [...frame.tubes.map((tube) => tube.name), ...frame.joints];
    this.find("names-list").append(...names.map((name) => make("option", { value: name })));
    const search = this.find("search");
    search.addEventListener("change", () => this.seek(search.value));
    this.fromTables();
  }

  /** In the report's tables a tube's name becomes a way into the view. */
  fromTables() {
    const places = new Map(this.frame.tubes.map((tube, place) => [tube.name, place]));
    for (const cell of document.querySelectorAll("main tbody th[scope=row]")) {
      const text = cell.textContent.trim();
      const place = places.get(text) ?? places.get(text.replace(/^tube /, "").replace(/ at joint .*$/, ""));
      if (place === undefined || this.root.contains(cell)) continue;
      const button = make("button", { type: "button", class: "as-link to-view", "aria-label": `${text}: show in the view` }, ...cell.childNodes);
      button.addEventListener("click", () => {
        this.pick("tube", place);
        this.root.scrollIntoView({ block: "start", behavior: STILL.matches ? "auto" : "smooth" });
        this.find("stage").focus({ preventScroll: true });
      });
      cell.replaceChildren(button);
    }
  }

  // ---- mouse and touch ----

  pointers() {
    const stage = this.find("stage");
    const down = new Map();
    let travelled = 0;
    const place = (event) => [event.offsetX, event.offsetY];
    stage.addEventListener("pointerdown", (event) => {
      stage.setPointerCapture(event.pointerId);
      down.set(event.pointerId, place(event));
      travelled = 0;
    });
    stage.addEventListener("pointermove", (event) => {
      const before = down.get(event.pointerId);
      if (!before) return;
      const now = place(event);
      const [dx, dy] = [now[0] - before[0], now[1] - before[1]];
      travelled += Math.hypot(dx, dy);
      if (down.size === 2) {
        const other = [...down].find(([id]) => id !== event.pointerId)[1];
        const apart = (a) => Math.hypot(a[0] - other[0], a[1] - other[1]);
        if (apart(before) > 1) this.eye.zoom(apart(now) / apart(before), [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2]);
        this.eye.shift(dx / 2, dy / 2);
      } else if (event.shiftKey || event.buttons & 6) this.eye.shift(dx, dy);
      else this.eye.rotate(dx / 180, dy / 180);
      down.set(event.pointerId, now);
      this.redraw();
    });
    const up = (event) => {
      const at = down.get(event.pointerId);
      down.delete(event.pointerId);
      if (at && event.type === "pointerup" && travelled < 5) this.pickAt(at);
    };
    for (const kind of ["pointerup", "pointercancel"]) stage.addEventListener(kind, up);
    stage.addEventListener("contextmenu", (event) => event.preventDefault());
    // A page is scrolled with the bare wheel; the view comes nearer with Ctrl held, or once it was clicked.
    stage.addEventListener("wheel", (event) => {
      if (!event.ctrlKey && document.activeElement !== stage) return;
      event.preventDefault();
      this.eye.zoom(Math.exp(-event.deltaY / 500), place(event));
      this.redraw();
    }, { passive: false });
  }

  /** The joint or else the tube nearest to a place of the screen, the nearer to the reader of two. */
  pickAt([x, y]) {
    const { eye, frame } = this;
    const joint = frame.joints.map((_, i) => ({ i, at: eye.project(this.movedJoint(i)) })).filter(({ at }) => Math.hypot(at[0] - x, at[1] - y) < 7);
    if (joint.length) {
      joint.sort((a, b) => eye.nearness(this.movedJoint(b.i)) - eye.nearness(this.movedJoint(a.i)));
      this.pick("joint", joint[0].i);
      return;
    }
    let best = null;
    frame.tubes.forEach((tube, i) => {
      if (!this.isShown(i)) return;
      const section = frame.sections[tube.section];
      const reach = Math.max(7, (Math.max(section.width, section.height) / 2) * eye.scale);
      const points = Array.from({ length: 9 }, (_, k) => this.movedTube(i, k / 8));
      for (let k = 0; k < 8; k += 1) {
        const [a, b] = [eye.project(points[k]), eye.project(points[k + 1])];
        const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        const t = Math.max(0, Math.min(1, ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy || 1)));
        const apart = Math.hypot(a[0] + t * dx - x, a[1] + t * dy - y);
        const near = eye.nearness(plus(times(points[k], 1 - t), times(points[k + 1], t)));
        if (apart < reach && (!best || near > best.near)) best = { i, near };
      }
    });
    if (best) this.pick("tube", best.i);
    else this.pick(null);
  }

  // ---- keys ----

  keys() {
    const stage = this.find("stage");
    stage.addEventListener("keydown", (event) => {
      const step = 0.12;
      const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
      const arrow = arrows[event.key];
      if (arrow && event.shiftKey) this.eye.shift(arrow[0] * 30, arrow[1] * 30);
      else if (arrow) this.eye.rotate(arrow[0] * step, arrow[1] * step);
      else if (event.key === "+" || event.key === "=") this.eye.zoom(1.2);
      else if (event.key === "-") this.eye.zoom(1 / 1.2);
      else if (event.key === "0") this.eye.stand("corner");
      else if (event.key === "n") this.step(1);
      else if (event.key === "p") this.step(-1);
      else if (event.key === "]") this.nextCase(1);
      else if (event.key === "[") this.nextCase(-1);
      else if (event.key === "Escape") this.pick(null);
      else return;
      event.preventDefault();
      this.redraw();
    });
  }

  /** The next tube that is shown; in a case the most used first. */
  step(by) {
    const forces = this.forces;
    const use = (tube) => (forces ? forces[tube * QUANTITIES + USE_OF] || 0 : 0);
    const order = [...this.frame.tubes.keys()].filter((tube) => this.isShown(tube)).sort((a, b) => use(b) - use(a) || a - b);
    if (order.length === 0) return;
    const now = this.picked?.kind === "tube" ? order.indexOf(this.picked.place) : by > 0 ? -1 : 0;
    this.pick("tube", order[(now + by + order.length) % order.length]);
  }

  nextCase(by) {
    const keys = [...this.find("case").options].map((option) => option.value);
    this.show(keys[(keys.indexOf(this.key) + by + keys.length) % keys.length]);
  }
}

(() => {
  reachTables();
  const root = document.getElementById("turn");
  const data = document.getElementById("turn-frame");
  if (!root || !data) return;
  try {
    window.turnView = new TurnView(root, readFrame(data));
  } catch (reason) {
    // Without the graphics the pictures and tables of the report remain; the page says why the view is missing.
    root.hidden = false;
    root.replaceChildren(make("p", { class: "more" }, `This browser cannot draw the frame to turn (${reason.message}). The pictures and tables hold the same.`));
  }
})();
