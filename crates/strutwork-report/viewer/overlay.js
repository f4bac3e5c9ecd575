// What is written and drawn over the solids: joints, names, arrows, panels, bodies, masses, axes, a scale bar.

const INK = "#16202a", BLUE = "#1f5582", RED = "#a3210f", SOFT = "#46525d";

class Overlay {
  constructor(canvas) {
    this.canvas = canvas;
    this.pen = canvas.getContext("2d");
  }

  /** Everything that is wanted, for the state of the view. */
  draw(view, ratio) {
    const { pen } = this;
    const { eye, frame } = view;
    const [w, h] = eye.size;
    pen.setTransform(ratio, 0, 0, ratio, 0, 0);
    pen.clearRect(0, 0, w, h);
    pen.lineJoin = "round";
    this.taken = [];
    const moved = (joint) => view.movedJoint(joint);
    if (view.wants("panels")) this.panels(eye, frame, moved);
    if (view.wants("bodies")) this.bodies(eye, frame, moved);
    if (view.wants("masses")) this.masses(eye, frame);
    this.joints(view, moved);
    if (view.wants("loads")) this.arrows(view, view.current?.acting, RED, moved, frame.joints.keys(), (k) => k);
    if (view.wants("reactions")) this.arrows(view, view.current?.reactions, BLUE, moved, frame.joints.keys(), (k) => k);
    if (view.wants("mounts")) this.arrows(view, view.current?.mounts, SOFT, moved, frame.mounts.keys(), (k) => frame.mounts[k].joint);
    this.chosen(view);
    if (view.wants("numbers")) this.numbers(view);
    this.triad(eye, h);
    this.scaleBar(eye, w, h);
  }

  line(points, style, width, dash = []) {
    const { pen } = this;
    pen.strokeStyle = style;
    pen.lineWidth = width;
    pen.setLineDash(dash);
    pen.beginPath();
    points.forEach(([x, y], i) => (i === 0 ? pen.moveTo(x, y) : pen.lineTo(x, y)));
    pen.stroke();
    pen.setLineDash([]);
  }

  /** A word where no other stands; says whether it found room. */
  word(text, [x, y], style, size = 11, must = false) {
    const { pen } = this;
    pen.font = `${size}px "Segoe UI", "Liberation Sans", Arial, sans-serif`;
    const width = pen.measureText(text).width;
    const box = [x - 1, y - size, x + width + 1, y + 3];
    const meets = (other) => box[0] < other[2] && other[0] < box[2] && box[1] < other[3] && other[1] < box[3];
    if (!must && this.taken.some(meets)) return false;
    this.taken.push(box);
    pen.lineWidth = 3;
    pen.strokeStyle = "#fff";
    pen.strokeText(text, x, y);
    pen.fillStyle = style;
    pen.fillText(text, x, y);
    return true;
  }

  panels(eye, frame, moved) {
    const { pen } = this;
    for (const panel of frame.panels) {
      const corners = panel.joints.map((joint) => eye.project(moved(joint)));
      pen.beginPath();
      corners.forEach(([x, y], i) => (i === 0 ? pen.moveTo(x, y) : pen.lineTo(x, y)));
      pen.closePath();
      pen.fillStyle = "rgb(31 85 130 / 0.10)";
      pen.fill();
      this.line([...corners, corners[0]], SOFT, 0.8, [5, 3]);
    }
  }

  bodies(eye, frame, moved) {
    for (const body of frame.bodies) {
      const centre = eye.project(body.at);
      for (const mount of frame.mounts.filter((one) => one.body === body.name)) {
        this.line([centre, eye.project(moved(mount.joint))], SOFT, 1, [2, 3]);
      }
      this.dot(centre, 4, SOFT);
      this.word(body.name, [centre[0] + 6, centre[1] - 4], SOFT);
    }
  }

  masses(eye, frame) {
    for (const mass of frame.masses) {
      const [x, y] = eye.project(mass.at);
      this.dot([x, y], 5, "#fff", INK);
      this.line([[x - 5, y], [x + 5, y]], INK, 1);
      this.line([[x, y - 5], [x, y + 5]], INK, 1);
      this.word(`${mass.name} ${shown(mass.kg)} kg`, [x + 8, y + 4], SOFT);
    }
  }

  dot([x, y], radius, fill, edge) {
    const { pen } = this;
    pen.beginPath();
    pen.arc(x, y, radius, 0, 2 * Math.PI);
    pen.fillStyle = fill;
    pen.fill();
    if (edge) {
      pen.strokeStyle = edge;
      pen.lineWidth = 1.2;
      pen.stroke();
    }
  }

  joints(view, moved) {
    const { pen } = this;
    const { eye, frame } = view;
    const [w, h] = eye.size;
    const named = view.wants("names");
    // One path for all of them: a frame of thousands stays quick.
    pen.fillStyle = INK;
    pen.beginPath();
    const places = frame.joints.map((_, joint) => {
      const [x, y] = eye.project(moved(joint));
      if (x > 0 && y > 0 && x < w && y < h) pen.rect(x - 1.7, y - 1.7, 3.4, 3.4);
      return [x, y];
    });
    pen.fill();
    if (named) frame.joints.forEach((name, joint) => this.word(name, [places[joint][0] + 5, places[joint][1] - 5], INK));
    if (view.picked?.kind !== "joint") return;
    const [x, y] = places[view.picked.place];
    this.dot([x, y], 5, RED, "#fff");
    this.word(frame.joints[view.picked.place], [x + 6, y - 6], RED, 13, true);
  }

  /** Forces as arrows whose points touch the joint, the longest a tenth of the screen, each long one with its size. */
  arrows(view, forces, style, moved, places, jointOf) {
    if (!forces) return;
    const { eye } = view;
    const list = [...places].map((place) => ({ place, force: triple(forces, place) })).filter(({ force }) => long(force) > 0);
    const most = list.reduce((best, { force }) => Math.max(best, long(force)), 1e-9);
    const reach = Math.min(...eye.size) / 7;
    for (const { place, force } of list) {
      const size = long(force);
      if (size < most / 60) continue;
      const tip = eye.project(moved(jointOf(place)));
      const part = (axis) => (dot(force, axis) / most) * reach;
      const [dx, dy] = [part(eye.right), -part(eye.up)];
      const length = Math.hypot(dx, dy);
      if (length < 3) continue;
      const tail = [tip[0] - dx, tip[1] - dy];
      this.line([tail, tip], style, 1.8);
      const [ux, uy] = [dx / length, dy / length];
      const barb = Math.min(8, length / 2);
      this.line([[tip[0] - barb * (ux + 0.45 * uy), tip[1] - barb * (uy - 0.45 * ux)], tip, [tip[0] - barb * (ux - 0.45 * uy), tip[1] - barb * (uy + 0.45 * ux)]], style, 1.8);
      if (size > most / 8) this.word(`${shown(size / 1000)} kN`, [tail[0] + 4, tail[1] - 3], style, 11);
    }
  }

  chosen(view) {
    if (view.picked?.kind !== "tube") return;
    const { eye } = view;
    const tube = view.picked.place;
    const points = Array.from({ length: 13 }, (_, i) => eye.project(view.movedTube(tube, i / 12)));
    this.line(points, RED, 2.5);
    const [x, y] = points[6];
    this.word(view.frame.tubes[tube].name, [x + 8, y - 8], RED, 13, true);
  }

  numbers(view) {
    const order = [...view.frame.tubes.keys()].filter((tube) => view.isShown(tube) && view.paint.numbers[tube]);
    const size = (tube) => Math.abs(parseFloat(view.paint.numbers[tube].replace("−", "-"))) || 0;
    // What matters most is written first and finds room: the greatest, or the cheapest.
    const turn = view.paint.lowFirst ? -1 : 1;
    for (const tube of order.sort((a, b) => turn * (size(b) - size(a)))) {
      const [x, y] = view.eye.project(view.movedTube(tube, 0.5));
      if (x > 0 && y > 0 && x < view.eye.size[0] && y < view.eye.size[1]) this.word(view.paint.numbers[tube], [x + 2, y - 2], INK, 10);
    }
  }

  triad(eye, h) {
    const at = [44, h - 44];
    [["x forward", [1, 0, 0]], ["y left", [0, 1, 0]], ["z up", [0, 0, 1]]].forEach(([name, axis]) => {
      const tip = [at[0] + 30 * dot(axis, eye.right), at[1] - 30 * dot(axis, eye.up)];
      this.line([at, tip], INK, 1.4);
      if (Math.hypot(tip[0] - at[0], tip[1] - at[1]) > 8) this.word(name, [tip[0] + 3, tip[1] - 2], INK, 10, true);
    });
  }

  scaleBar(eye, w, h) {
    const wanted = 120 / eye.scale;
    const power = 10 ** Math.floor(Math.log10(wanted));
    const size = [5, 2, 1].map((step) => step * power).find((step) => step <= wanted) ?? power;
    const [x, y] = [w - 20 - size * eye.scale, h - 18];
    this.line([[x, y - 5], [x, y], [x + size * eye.scale, y], [x + size * eye.scale, y - 5]], INK, 1.4);
    this.word(`${size} mm`, [x, y - 9], INK, 11, true);
  }
}
