// What is known of the chosen tube or joint, as words and a table: for the eye, the keyboard and the screen reader alike.

/** An element with text and attributes; text is never read as markup. */
function make(tag, attributes = {}, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value);
  }
  element.append(...inside);
  return element;
}

function table(caption, heads, rows) {
  const head = make("tr", {}, ...heads.map(([title, unit]) => make("th", { scope: "col", class: unit === null ? "" : "n" }, title, unit ? make("span", { class: "unit" }, ` ${unit}`) : "")));
  return make("div", { class: "table", tabindex: "0", role: "region", "aria-label": caption }, make("table", {}, make("caption", {}, caption), make("thead", {}, head), make("tbody", {}, ...rows)));
}

function row(view, one, cells) {
  const button = make("button", { type: "button", class: "as-link", onclick: () => view.show(one.key) }, one.title);
  const mark = view.key === one.key ? { class: "current" } : {};
  return make("tr", mark, make("th", { scope: "row" }, button), ...cells.map((text) => make("td", { class: "n" }, text)));
}

/** The card of a tube: what it is, its forces in every case, its calculation. */
function tubeCard(view, place) {
  const { frame } = view;
  const tube = frame.tubes[place];
  const length = long(minus(triple(frame.ends, 2 * place + 1), triple(frame.ends, 2 * place)));
  const joint = (id) => make("button", { type: "button", class: "as-link", onclick: () => view.pick("joint", id) }, frame.joints[id]);
  const group = frame.groups[tube.group];
  const rows = frame.cases.map((one) => {
    const values = Array.from({ length: QUANTITIES }, (_, k) => one.forces[place * QUANTITIES + k]);
    return row(view, one, values.map(shown));
  });
  const said = frame.said[tube.name];
  const grams = frame.worth?.grams[place];
  const worth = grams === undefined ? [] : [make("p", {}, Number.isNaN(grams) ? "More wall on it would bring no torsional stiffness." : `A thicker wall on it would cost ${shown(grams)} g for each N·m/deg of torsional stiffness.`)];
  const worked = said?.anchor
    ? make("p", {}, make("a", { href: `#${said.anchor}` }, "Its calculation, line by line"))
    : make("p", {}, "Its calculation, line by line: ", make("code", {}, `strutwork working FOLDER "${tube.name}"`));
  return [
    make("h4", {}, `Tube ${tube.name}`),
    make("p", {}, `${frame.sections[tube.section].label}, ${shown(length)} mm between its ends${group ? `, group ${group}` : ""}; from `, joint(tube.from), " to ", joint(tube.to), "."),
    ...(said ? [make("p", {}, said.words), make("p", { class: "helps" }, `What usually helps: ${said.helps}`)] : []),
    ...worth,
    worked,
    table(`Extremes along ${tube.name}, case by case`, [["Case", null], ["N", "N"], ["V", "N"], ["T", "N·m"], ["My", "N·m"], ["Mz", "N·m"], ["Utilisation", ""]], rows),
  ];
}

/** The card of a joint: where it is, which tubes meet, how it moves in every case. */
function jointCard(view, place) {
  const { frame } = view;
  const at = triple(frame.at, place).map((value) => value.toFixed(1));
  const meet = [...frame.tubes.keys()].filter((i) => frame.tubes[i].from === place || frame.tubes[i].to === place);
  const links = meet.flatMap((i, k) => [k ? ", " : "", make("button", { type: "button", class: "as-link", onclick: () => view.pick("tube", i) }, frame.tubes[i].name)]);
  const rows = frame.cases.map((one) => {
    const u = triple(one.moved, 2 * place), f = triple(one.acting, place);
    return row(view, one, [...u, ...f].map(shown));
  });
  return [
    make("h4", {}, `Joint ${frame.joints[place]}`),
    make("p", {}, `x ${at[0]}, y ${at[1]}, z ${at[2]} mm. Here meet: `, ...links, "."),
    table(`How ${frame.joints[place]} moves and what acts on it`, [["Case", null], ["ux", "mm"], ["uy", "mm"], ["uz", "mm"], ["Fx", "N"], ["Fy", "N"], ["Fz", "N"]], rows),
  ];
}
