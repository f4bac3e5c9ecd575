// What a tube's colour says: a quantity on the ramp of the report's pictures, or what it belongs to. Never colour alone: the
// numbers can be written beside the tubes, and the legend names every colour.

const PLAIN = [0.83, 0.86, 0.885];
const UNKNOWN = [0.94, 0.94, 0.94];
const fromHex = (hex) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255);
const toHex = (rgb) => `#${rgb.map((part) => Math.round(part * 255).toString(16).padStart(2, "0")).join("")}`;

/** A place of the ramp, 0 to 1. */
function ramp(stops, place) {
  const at = Math.max(0, Math.min(1, place)) * (stops.length - 1);
  const low = Math.min(Math.floor(at), stops.length - 2), part = at - low;
  return stops[low].map((value, i) => value + (stops[low + 1][i] - value) * part);
}

/** A number with as many decimals as the greatest of its kind needs for three digits. */
function even(value, most) {
  const digits = Math.max(0, Math.min(6, 2 - Math.floor(Math.log10(most))));
  return value.toFixed(digits).replace("-", "−");
}

/** Colours of what has no order, told apart in grey as well. */
function ofKind(place, count) {
  const light = 0.88 - (0.62 * place) / Math.max(count - 1, 1);
  const hue = (place * 137.5 * Math.PI) / 180;
  const tint = 0.16;
  return [0, 2.1, 4.2].map((turn) => Math.max(0, Math.min(1, light + tint * Math.cos(hue + turn))));
}

/** Colours, numbers and legend for a choice. */
function painted(frame, choice, forces, stops) {
  const tubes = frame.tubes;
  const none = { colours: tubes.map(() => PLAIN), numbers: tubes.map(() => ""), legend: null };
  if (choice === "section" || choice === "group") {
    const names = choice === "section" ? frame.sections.map((section) => section.label) : frame.groups;
    const of = (tube) => (choice === "section" ? tube.section : tube.group);
    const used = [...new Set(tubes.map(of))].sort((a, b) => a - b);
    const colour = (tube) => ofKind(used.indexOf(of(tube)), used.length);
    return {
      colours: tubes.map(colour),
      numbers: tubes.map((tube) => names[of(tube)]),
      legend: { title: choice === "section" ? "Section" : "Group", keys: used.map((k, i) => [toHex(ofKind(i, used.length)), names[k] || "no group"]) },
    };
  }
  if (choice === "worth") return worthPainted(frame.worth, tubes, stops);
  if (!forces) return none;
  const value = {
    use: (i) => forces[i * QUANTITIES + USE_OF],
    axial: (i) => forces[i * QUANTITIES + N_OF],
  }[choice];
  if (!value) return none;
  const values = tubes.map((_, i) => value(i));
  const most = values.reduce((best, v) => (Math.abs(v) > best ? Math.abs(v) : best), 1e-12);
  const known = (v) => v !== null && !Number.isNaN(v);
  const number = (v, unit) => (known(v) && Math.abs(v) > most / 100 ? even(v / unit, most / unit) : "");
  if (choice === "axial") {
    // Tension and compression: blue and rust, paler towards nothing; the sign stands in the numbers.
    const [pull, push, nothing] = [[0.09, 0.29, 0.47], [0.62, 0.24, 0.07], [0.93, 0.93, 0.9]];
    const mix = (v) => {
      const end = v >= 0 ? pull : push, part = Math.sqrt(Math.abs(v) / most);
      return nothing.map((base, i) => base + (end[i] - base) * part);
    };
    return {
      colours: values.map((v) => (known(v) ? mix(v) : UNKNOWN)),
      numbers: values.map((v) => number(v, 1000)),
      legend: { title: "Axial force, kN (+ pulls, − presses)", ramp: [-1, -0.5, 0, 0.5, 1].map((part) => [toHex(mix(part * Math.abs(part) * most)), even((part * Math.abs(part) * most) / 1000, most / 1000)]) },
    };
  }
  const top = Math.max(1, most);
  return {
    colours: values.map((v) => (known(v) ? ramp(stops, Math.abs(v) / top) : UNKNOWN)),
    numbers: values.map((v) => number(v, 1)),
    legend: { title: "Utilisation: value over limit", ramp: [0, 0.25, 0.5, 0.75, 1].map((part) => [toHex(ramp(stops, part)), even(part * top, top)]) },
  };
}

/** What each tube is worth: dark where stiffness is cheap, in the steps of the report's picture. */
function worthPainted({ grams, edges, case: name }, tubes, stops) {
  const shade = (step) => ramp(stops, 0.97 - (0.92 * step) / edges.length);
  const step = (g) => edges.filter((edge) => g >= edge).length;
  const words = (at) => (at === 0 ? `under ${edges[0]}` : at === edges.length ? `${edges[at - 1]} and more` : `${edges[at - 1]} to ${edges[at]}`);
  const used = [...new Set([...grams].filter((g) => !Number.isNaN(g)).map(step))].sort((a, b) => a - b);
  const keys = used.map((at) => [toHex(shade(at)), words(at)]);
  if (grams.some(Number.isNaN)) keys.push([toHex(UNKNOWN), "more wall brings nothing, or no wall"]);
  return {
    colours: tubes.map((_, i) => (Number.isNaN(grams[i]) ? UNKNOWN : shade(step(grams[i])))),
    numbers: tubes.map((_, i) => (Number.isNaN(grams[i]) ? "" : shown(grams[i]))),
    lowFirst: true,
    legend: { title: `What stiffness costs: grams of wall for each N·m/deg more, case ${name}; dark is cheap`, keys },
  };
}
