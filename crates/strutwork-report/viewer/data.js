// What the report's writer put into the page: names as lists, numbers as floats in base64.

/** Numbers packed by the writer: little-endian 32-bit floats, of which the lowest bytes may be left out. */
function unpack(text, kept = 3) {
  const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  const whole = new Uint8Array((bytes.length / kept) * 4);
  bytes.forEach((byte, i) => (whole[4 * Math.floor(i / kept) + 4 - kept + (i % kept)] = byte));
  const view = new DataView(whole.buffer);
  return Float32Array.from({ length: whole.length / 4 }, (_, i) => view.getFloat32(4 * i, true));
}

/** Triples of which most are nothing. */
function spread(sparse, count) {
  const all = new Float32Array(3 * count), there = unpack(sparse.all);
  sparse.at.forEach((place, i) => all.set(there.subarray(3 * i, 3 * i + 3), 3 * place));
  return all;
}

/** How far tubes bow off the curve of their ends, tube by tube: two vectors m and d, 16 s² (1 − s)² (m + d (s − ½)). */
function bowsOf(text) {
  const all = unpack(text, 4);
  return new Map(Array.from({ length: all.length / 7 }, (_, i) => [all[7 * i], all.subarray(7 * i + 1, 7 * i + 7)]));
}

/** The frame of the page, unpacked; lengths in mm, forces in N, moments in N·m, turns in rad. */
function readFrame(element) {
  const raw = JSON.parse(element.textContent);
  const shapes = raw.shapes.map((shape) => ({ ...shape, moved: unpack(shape.moved), bows: bowsOf(shape.bows) }));
  const cases = raw.cases.map((one) => ({
    ...one,
    moved: unpack(one.moved),
    bows: bowsOf(one.bows),
    forces: unpack(one.forces),
    acting: spread(one.acting, raw.joints.length),
    reactions: spread(one.reactions, raw.joints.length),
    mounts: unpack(one.mounts),
  }));
  return {
    ...raw,
    at: unpack(raw.at, 4),
    ends: unpack(raw.ends, 4),
    ups: unpack(raw.ups),
    worth: raw.worth && { ...raw.worth, grams: unpack(raw.worth.grams, 4) },
    cases,
    shapes,
    tubeCount: raw.tubes.length,
    jointCount: raw.joints.length,
  };
}

/** What stands for each tube in a case: N, V, T, My, Mz (the extremes along it, signed, V unsigned) and its utilisation. */
const QUANTITIES = 6;
const N_OF = 0;
const USE_OF = 5;

/** The extremes over all cases, tube by tube. */
function envelope(frame) {
  const all = new Float32Array(frame.tubeCount * QUANTITIES).fill(NaN);
  for (const one of frame.cases) {
    one.forces.forEach((value, place) => {
      if (!Number.isNaN(value) && !(Math.abs(all[place]) >= Math.abs(value))) all[place] = value;
    });
  }
  return all;
}

/** A number for reading: three significant digits, no exponent. */
function shown(value) {
  if (value === null || value === undefined || Number.isNaN(value)) return "–";
  if (value === 0) return "0";
  const digits = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))));
  return value.toFixed(Math.min(digits, 6)).replace("-", "−");
}
