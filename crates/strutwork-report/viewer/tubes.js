// The tubes as solids, true to size, on the graphics processor: every tube is one instance of a box or a rod, and bends there.

const PIECES = 10;
const SIDES = 12;
const STRIDE = 36;

const VERTEX = `#version 300 es
layout(location=0) in vec3 unit;      // along, across y, across z
layout(location=1) in vec3 normal;
layout(location=2) in vec3 from; layout(location=3) in vec3 to; layout(location=4) in vec3 upward;
layout(location=5) in vec2 half_size;
layout(location=6) in vec3 u0; layout(location=7) in vec3 s0; layout(location=8) in vec3 u1; layout(location=9) in vec3 s1;
layout(location=10) in vec3 paint; layout(location=11) in vec4 state; // turn at both ends, shown, chosen
layout(location=12) in vec3 bow; layout(location=13) in vec3 lean;
uniform vec3 centre, right, up, near; uniform vec2 zoom; uniform float depth, scale;
out vec3 shade; out float chosen;
void main() {
  vec3 along = to - from; float length_mm = max(length(along), 1e-3); vec3 ex = along / length_mm;
  float t = unit.x, s = 1.0 - t;
  vec3 u = u0*s*s*(1.0+2.0*t) + u1*t*t*(3.0-2.0*t) + (s0*t*s*s - s1*t*t*s)*length_mm;
  u += ex * (dot(u0,ex)*s + dot(u1,ex)*t - dot(u,ex)) + 16.0*t*t*s*s*(bow + lean*(t - 0.5));
  float turn = scale * mix(state.x, state.y, t), c = cos(turn), d = sin(turn);
  vec3 ez = upward, ey = cross(ez, ex);
  vec3 ry = ey*c + ez*d, rz = ez*c - ey*d;
  vec3 place = mix(from, to, t) + scale*u + ry*unit.y*half_size.x + rz*unit.z*half_size.y;
  vec3 n = ex*normal.x + ry*normal.y + rz*normal.z;
  vec3 away = place - centre;
  gl_Position = vec4(dot(away,right)*zoom.x, dot(away,up)*zoom.y, -dot(away,near)/depth*0.5, 1.0);
  if (state.z < 0.5) gl_Position = vec4(2.0, 2.0, 2.0, 1.0);
  float light = dot(n, n) < 0.1 ? 1.0 : 0.78 + 0.22*max(0.0, dot(n, normalize(near*0.8 + up*0.7 - right*0.35)));
  shade = paint * light; chosen = state.w;
}`;
const FACES = `#version 300 es
precision mediump float; in vec3 shade; in float chosen; out vec4 colour;
void main() { colour = vec4(shade, 1.0); }`;
const LINES = `#version 300 es
precision mediump float; in vec3 shade; in float chosen; uniform float faint; out vec4 colour;
void main() { colour = vec4(chosen > 0.5 ? vec3(0.64, 0.13, 0.06) : mix(vec3(0.086, 0.125, 0.165), shade, faint), 1.0); }`;

/** A box (4 sides, with its edges) or a rod (round) along x from 0 to 1: triangles and lines of unit places and normals. */
function solid(round) {
  const faces = [], lines = [];
  const sides = round ? SIDES : 4;
  const corner = (k) => {
    if (!round) return [[-1, -1], [1, -1], [1, 1], [-1, 1]][k % 4];
    const angle = (2 * Math.PI * k) / sides;
    return [Math.cos(angle), Math.sin(angle)];
  };
  for (let k = 0; k < sides; k += 1) {
    const [a, b] = [corner(k), corner(k + 1)];
    const flat = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    const size = Math.hypot(...flat);
    const na = round ? a : flat.map((part) => part / size), nb = round ? b : na;
    for (let i = 0; i < PIECES; i += 1) {
      const [x, y] = [i / PIECES, (i + 1) / PIECES];
      const put = (at, c, n) => faces.push(at, c[0], c[1], 0, n[0], n[1]);
      put(x, a, na), put(y, a, na), put(y, b, nb), put(x, a, na), put(y, b, nb), put(x, b, nb);
      if (!round) lines.push(x, a[0], a[1], 0, 0, 0, y, a[0], a[1], 0, 0, 0);
    }
    for (const [at, out] of [[0, -1], [1, 1]]) {
      faces.push(at, 0, 0, out, 0, 0, at, a[0], a[1], out, 0, 0, at, b[0], b[1], out, 0, 0);
      lines.push(at, a[0], a[1], 0, 0, 0, at, b[0], b[1], 0, 0, 0);
    }
  }
  return { faces: new Float32Array(faces), lines: new Float32Array(lines) };
}

function program(gl, fragment) {
  const made = gl.createProgram();
  for (const [kind, source] of [[gl.VERTEX_SHADER, VERTEX], [gl.FRAGMENT_SHADER, fragment]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, source);
    gl.compileShader(shader);
    if (!gl.getShaderParameter(shader, gl.COMPILE_STATUS)) throw new Error(gl.getShaderInfoLog(shader));
    gl.attachShader(made, shader);
  }
  gl.linkProgram(made);
  const names = ["centre", "right", "up", "near", "zoom", "depth", "scale", "faint"];
  return { made, at: Object.fromEntries(names.map((name) => [name, gl.getUniformLocation(made, name)])) };
}

/** Draws all tubes in four calls at most: faces and edges of boxes and of rods. */
class Solids {
  constructor(canvas, frame) {
    const gl = canvas.getContext("webgl2", { antialias: true });
    if (!gl) throw new Error("no WebGL 2");
    this.gl = gl;
    this.frame = frame;
    this.draws = 0;
    const widths = frame.tubes.map((tube) => frame.sections[tube.section].width).sort((a, b) => a - b);
    this.width = widths[Math.floor(widths.length / 2)] ?? 1;
    this.programs = [program(gl, FACES), program(gl, LINES)];
    this.batches = [false, true].map((round) => this.batch(round)).filter((batch) => batch.tubes.length > 0);
    gl.enable(gl.DEPTH_TEST);
    gl.depthFunc(gl.LEQUAL);
  }

  batch(round) {
    const { gl, frame } = this;
    const tubes = [...frame.tubes.keys()].filter((i) => frame.sections[frame.tubes[i].section].round === round);
    const shape = solid(round);
    const values = new Float32Array(tubes.length * STRIDE);
    tubes.forEach((tube, row) => {
      const section = frame.sections[frame.tubes[tube].section];
      values.set(triple(frame.ends, 2 * tube), row * STRIDE);
      values.set(triple(frame.ends, 2 * tube + 1), row * STRIDE + 3);
      values.set(triple(frame.ups, tube), row * STRIDE + 6);
      values.set([section.width / 2, section.height / 2], row * STRIDE + 9);
    });
    const instances = gl.createBuffer();
    const arrays = [shape.faces, shape.lines].map((vertices) => {
      const array = gl.createVertexArray();
      gl.bindVertexArray(array);
      gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
      gl.bufferData(gl.ARRAY_BUFFER, vertices, gl.STATIC_DRAW);
      [0, 1].forEach((place) => {
        gl.enableVertexAttribArray(place);
        gl.vertexAttribPointer(place, 3, gl.FLOAT, false, 24, 12 * place);
      });
      gl.bindBuffer(gl.ARRAY_BUFFER, instances);
      let offset = 0;
      [3, 3, 3, 2, 3, 3, 3, 3, 3, 4, 3, 3].forEach((size, place) => {
        gl.enableVertexAttribArray(2 + place);
        gl.vertexAttribPointer(2 + place, size, gl.FLOAT, false, 4 * STRIDE, 4 * offset);
        gl.vertexAttribDivisor(2 + place, 1);
        offset += size;
      });
      return { array, count: vertices.length / 6 };
    });
    return { tubes, values, instances, arrays };
  }

  /** Takes over a case: movements of the joints, a colour for each tube, which are shown, which one is chosen. */
  set(shape, colours, isShown, chosen) {
    const { gl, frame } = this;
    const moved = shape?.moved;
    for (const batch of this.batches) {
      batch.tubes.forEach((tube, row) => {
        const ends = [triple(frame.ends, 2 * tube), triple(frame.ends, 2 * tube + 1)];
        const along = minus(ends[1], ends[0]), ex = times(along, 1 / (long(along) || 1));
        const { from, to, bends } = frame.tubes[tube];
        const at = row * STRIDE + 11;
        if (moved) {
          const of = [from, to].map((joint, end) => {
            const turn = triple(moved, 2 * joint + 1);
            return { u: plus(triple(moved, 2 * joint), cross(turn, minus(ends[end], triple(frame.at, joint)))), turn };
          });
          const chord = times(minus(of[1].u, of[0].u), 1 / (long(along) || 1));
          of.forEach(({ u, turn }, end) => {
            batch.values.set(u, at + 6 * end);
            batch.values.set(bends & (1 << end) ? cross(turn, ex) : chord, at + 6 * end + 3);
            batch.values[at + 15 + end] = dot(turn, ex);
          });
        } else {
          batch.values.fill(0, at, at + 12);
          batch.values.fill(0, at + 15, at + 17);
        }
        batch.values.set(colours[tube], at + 12);
        batch.values[at + 17] = isShown(tube) ? 1 : 0;
        batch.values[at + 18] = tube === chosen ? 1 : 0;
        const bow = shape?.bows.get(tube);
        if (bow) batch.values.set(bow, at + 19);
        else batch.values.fill(0, at + 19, at + 25);
      });
      gl.bindBuffer(gl.ARRAY_BUFFER, batch.instances);
      gl.bufferData(gl.ARRAY_BUFFER, batch.values, gl.DYNAMIC_DRAW);
    }
  }

  draw(eye, scale, ratio) {
    const { gl } = this;
    const [w, h] = eye.size;
    gl.viewport(0, 0, Math.round(w * ratio), Math.round(h * ratio));
    gl.clearColor(1, 1, 1, 1);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    this.draws = 0;
    this.programs.forEach(({ made, at }, kind) => {
      gl.useProgram(made);
      for (const name of ["centre", "right", "up", "near"]) gl.uniform3fv(at[name], eye[name]);
      gl.uniform2f(at.zoom, (2 * eye.scale) / w, (2 * eye.scale) / h);
      gl.uniform1f(at.depth, eye.depth * 2);
      gl.uniform1f(at.scale, scale);
      // Edges a hair's breadth apart would blacken a small picture.
      if (at.faint) gl.uniform1f(at.faint, Math.max(0, Math.min(0.85, 1.25 - (this.width * eye.scale) / 8)));
      // Faces stand back a little, so that edges are not swallowed.
      if (kind === 0) {
        gl.enable(gl.POLYGON_OFFSET_FILL);
        gl.polygonOffset(1, 1);
      } else gl.disable(gl.POLYGON_OFFSET_FILL);
      for (const batch of this.batches) {
        const { array, count } = batch.arrays[kind];
        gl.bindVertexArray(array);
        gl.drawArraysInstanced(kind === 0 ? gl.TRIANGLES : gl.LINES, 0, count, batch.tubes.length);
        this.draws += 1;
      }
    });
  }
}
