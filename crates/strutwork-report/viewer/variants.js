// The table of variants: sorted by any column, and only those shown that one asks for. Nothing is computed here; without this
// the table stands as it was written.

/** The number that a cell shows; `null` where it shows none. */
function numberOf(text) {
  const plain = text.replace(/[\u202f\u00a0 ]/g, "").replace("\u2212", "-").replace("∞", "Infinity");
  return plain === "" || Number.isNaN(Number(plain)) ? null : Number(plain);
}

/** Numbers before words before nothing, whichever way it is sorted. */
function compare(a, b, turn) {
  const kind = (cell) => (cell.number !== null ? 0 : cell.text === "" || cell.text === "–" ? 2 : 1);
  if (kind(a) !== kind(b)) return kind(a) - kind(b);
  if (a.number !== null) return turn * (a.number < b.number ? -1 : a.number > b.number ? 1 : 0);
  return turn * (a.text < b.text ? -1 : a.text > b.text ? 1 : 0);
}

class Variants {
  constructor(table, form, said) {
    this.table = table;
    this.form = form;
    this.said = said;
    this.heads = [...table.tHead.rows[0].cells];
    this.names = this.heads.map((head) => head.textContent);
    this.rows = [...table.tBodies[0].rows].map((row) => ({
      row,
      cells: [...row.cells].map((cell) => ({ text: cell.textContent, number: numberOf(cell.textContent) })),
    }));
    // A parameter may have any name: these stand behind the answers, in this order.
    this.status = this.names.length - 1;
    this.keeps = Number(form.dataset.keeps);
    this.front = Number(form.dataset.front);
    this.heads.forEach((head, column) => this.sortable(head, column));
    this.columns();
    form.addEventListener("input", () => this.choose());
    form.addEventListener("reset", () => setTimeout(() => this.choose()));
    form.addEventListener("submit", (event) => event.preventDefault());
    form.hidden = false;
    this.choose();
  }

  sortable(head, column) {
    const button = document.createElement("button");
    button.type = "button";
    // A long name may be divided after its points and bars.
    const parts = head.textContent.split(/(?<=[._-])/);
    button.append(...parts.flatMap((part, i) => (i ? [document.createElement("wbr"), part] : [part])));
    button.addEventListener("click", () => this.sort(column));
    head.replaceChildren(button);
    head.setAttribute("aria-sort", "none");
  }

  /** Columns of numbers, which can be asked for from one to another. */
  columns() {
    const numbers = this.names.map((_, column) => this.rows.some(({ cells }) => cells[column]?.number !== null));
    this.names.forEach((name, column) => {
      if (!numbers[column]) return;
      const option = document.createElement("option");
      option.value = column;
      option.textContent = name;
      this.form.elements.column.append(option);
    });
  }

  /** By a column; the other way when it was sorted by it already. */
  sort(column) {
    const head = this.heads[column];
    const turn = head.getAttribute("aria-sort") === "ascending" ? -1 : 1;
    this.heads.forEach((other) => other.setAttribute("aria-sort", other === head ? (turn > 0 ? "ascending" : "descending") : "none"));
    // Variants that are alike stay in the order of their numbers.
    this.rows.sort((a, b) => compare(a.cells[column], b.cells[column], turn) || a.cells[0].number - b.cells[0].number);
    this.table.tBodies[0].append(...this.rows.map(({ row }) => row));
    this.say(`sorted by ${this.names[column]}, ${turn > 0 ? "the least first" : "the greatest first"}`);
  }

  wanted(cells) {
    const { which, text, column, from, to } = this.form.elements;
    const kinds = {
      all: () => true,
      keeps: () => cells[this.keeps].text === "yes",
      fails: () => cells[this.keeps].text === "no",
      front: () => cells[this.front].text === "front",
      unsolved: () => cells[this.status].text !== "solved",
    };
    if (!kinds[which.value]()) return false;
    const held = text.value.trim().toLowerCase();
    if (held && !cells.some((cell) => cell.text.toLowerCase().includes(held))) return false;
    if (from.value === "" && to.value === "") return true;
    const number = cells[Number(column.value)].number;
    return number !== null && (from.value === "" || number >= Number(from.value)) && (to.value === "" || number <= Number(to.value));
  }

  choose() {
    for (const { row, cells } of this.rows) row.hidden = !this.wanted(cells);
    this.say();
  }

  say(more) {
    const shown = this.rows.filter(({ row }) => !row.hidden).length;
    this.said.textContent = `${shown} of ${this.rows.length} rows${more ? `, ${more}` : ""}.`;
  }
}

(() => {
  const [table, form, said] = ["variants", "choose", "chosen"].map((id) => document.getElementById(id));
  if (table && form && said) window.variants = new Variants(table, form, said);
  reachTables();
})();
