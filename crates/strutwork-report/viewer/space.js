// Where the eye is, and how a place of the frame comes onto the screen: parallel projection, as on a drawing.

const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const minus = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const times = (a, s) => [a[0] * s, a[1] * s, a[2] * s];
const plus = (a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const long = (a) => Math.hypot(a[0], a[1], a[2]);
const triple = (list, i) => [list[3 * i], list[3 * i + 1], list[3 * i + 2]];

/** Directions from which the frame is looked at: turn about z from x, and height above the floor, degrees. */
const STANDPOINTS = { corner: [-52, 24], side: [-90, 0], top: [-90, 90], front: [0, 0], rear: [180, 0] };

/** The eye: it looks at `centre` from the direction `turn`, `height` (rad), with `scale` px a mm. */
class Eye {
  constructor(low, high) {
    this.low = low;
    this.high = high;
    this.size = [1, 1];
    this.stand("corner");
  }

  /** Looks from a named standpoint, the whole frame in sight. */
  stand(name) {
    [this.turn, this.height] = STANDPOINTS[name].map((degrees) => (degrees * Math.PI) / 180);
    this.fit();
  }

  /** Brings the whole frame into sight. */
  fit() {
    this.centre = times(plus(this.low, this.high), 0.5);
    this.axes();
    const [w, h] = this.size;
    const half = times(minus(this.high, this.low), 0.5);
    const reach = (axis) => half.reduce((sum, part, i) => sum + Math.abs(part * axis[i]), 0);
    this.scale = Math.min((w - 60) / (2 * reach(this.right) || 1), (h - 70) / (2 * reach(this.up) || 1));
    this.depth = long(half) * 2 || 1;
  }

  /** The screen's right, up and towards the reader, as directions in the frame. */
  axes() {
    const [s, c, sh, ch] = [Math.sin(this.turn), Math.cos(this.turn), Math.sin(this.height), Math.cos(this.height)];
    this.near = [ch * c, ch * s, sh];
    this.right = [-s, c, 0];
    this.up = [-sh * c, -sh * s, ch];
  }

  rotate(dx, dy) {
    this.turn -= dx;
    this.height = Math.max(-Math.PI / 2, Math.min(Math.PI / 2, this.height + dy));
    this.axes();
  }

  /** Moves the frame over the screen, px. */
  shift(dx, dy) {
    this.centre = minus(this.centre, plus(times(this.right, dx / this.scale), times(this.up, -dy / this.scale)));
  }

  /** Comes nearer about a place of the screen, px from its top left corner. */
  zoom(factor, [x, y] = times2(this.size, 0.5)) {
    const [w, h] = this.size;
    const most = 60, least = 2e-3;
    const scale = Math.min(most, Math.max(least, this.scale * factor));
    const ratio = 1 - this.scale / scale;
    this.centre = plus(
      this.centre,
      plus(times(this.right, ((x - w / 2) / this.scale) * ratio), times(this.up, ((h / 2 - y) / this.scale) * ratio)),
    );
    this.scale = scale;
  }

  /** A place of the frame on the screen, px. */
  project(place) {
    const away = minus(place, this.centre);
    return [this.size[0] / 2 + dot(away, this.right) * this.scale, this.size[1] / 2 - dot(away, this.up) * this.scale];
  }

  nearness(place) {
    return dot(place, this.near);
  }
}

const times2 = (a, s) => [a[0] * s, a[1] * s];

/** The moved axis of a tube at a place `t` from 0 to 1: straight plus `scale` times the cubic of its ends' movements and its bow. */
function alongTube(frame, shape, scale, tube, t) {
  const moved = shape?.moved;
  const from = triple(frame.ends, 2 * tube), to = triple(frame.ends, 2 * tube + 1);
  const straight = plus(times(from, 1 - t), times(to, t));
  if (!moved || scale === 0) return straight;
  const along = minus(to, from), length = long(along) || 1, ex = times(along, 1 / length);
  const [a, b] = [frame.tubes[tube].from, frame.tubes[tube].to].map((joint, end) => {
    const u = triple(moved, 2 * joint), turn = triple(moved, 2 * joint + 1);
    const arm = minus(end === 0 ? from : to, triple(frame.at, joint));
    return { u: plus(u, cross(turn, arm)), slope: cross(turn, ex) };
  });
  const chord = times(minus(b.u, a.u), 1 / length);
  const bends = frame.tubes[tube].bends;
  const across = minus(chord, times(ex, dot(chord, ex)));
  const slope0 = bends & 1 ? a.slope : across, slope1 = bends & 2 ? b.slope : across;
  const s = 1 - t;
  const cubic = plus(
    plus(times(a.u, s * s * (1 + 2 * t)), times(b.u, t * t * (3 - 2 * t))),
    plus(times(slope0, length * t * s * s), times(slope1, -length * t * t * s)),
  );
  // Along itself a tube stretches evenly.
  const even = dot(a.u, ex) * s + dot(b.u, ex) * t - dot(cubic, ex);
  const bow = shape.bows.get(tube);
  const own = plus(cubic, times(ex, even)), share = 16 * t * t * s * s;
  return plus(straight, times(bow ? plus(own, times(plus(triple(bow, 0), times(triple(bow, 1), t - 0.5)), share)) : own, scale));
}
