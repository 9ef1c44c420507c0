// The cells of sheets: what each stands for, and which of them are chosen.
import { all } from "./page.js";
import { unfold } from "./rows.js";

export const rowsOf = grid => all("tbody tr", grid).filter(r => !r.matches(".reason")).map(r => [...r.cells]).filter(r => r.length);
export const gridOf = td => td.closest("table[role=grid]");
export const can = td => td?.matches(".edit, .lead") && !td.hasAttribute("aria-disabled");
export const textOf = td => (td.dataset.typed ?? td.textContent).replaceAll("\u2212", "-").replaceAll("\u00a0", " ").trim();
export const kindOf = td => td.dataset.kind ?? td.parentElement.dataset.kind ?? gridOf(td).dataset.kind;
export const idOf = td => td.dataset.id ?? td.parentElement.dataset.id ?? gridOf(td).dataset.id ?? "";
export const keyOf = td => td.dataset.field ? "field " + td.dataset.field
  : td.dataset.path ? [kindOf(td), idOf(td), (td.parentElement.dataset.new ?? td.parentElement.dataset.add ?? "") + td.dataset.path].join(" ") : null;
/** Every cell by its key: made once for many keys, for a sheet may have thousands of rows. */
export const cellsByKey = () => {
  const cells = new Map();
  for (const td of all("td[data-path], td[data-field]")) { const key = keyOf(td); if (!cells.has(key)) cells.set(key, td); }
  return cells;
};
export const cellOf = key => cellsByKey().get(key);
export const isNew = td => td.parentElement.matches("[data-new], [data-add]");

/** What a record's new row holds, by path. */
export const newCells = row => Object.fromEntries([...row.cells].filter(td => td.dataset.path).map(td => [td.dataset.path, textOf(td)]).filter(([, v]) => v));
/** The entry that cells make, by path. */
export const nested = cells => {
  const entry = {};
  for (const [path, text] of Object.entries(cells)) {
    const steps = path.slice(1).split("/");
    let at = entry;
    for (const s of steps.slice(0, -1)) at = at[s] ??= {};
    at[steps.at(-1)] = steps.at(-1) === "count" && /^\d{1,9}$/.test(text) ? +text : text;
  }
  return entry;
};

/** Puts what was typed into the entry that a row starts from. */
export const merged = (start, own) => {
  for (const [k, v] of Object.entries(own)) start[k] = typeof v === "object" && typeof start[k] === "object" ? merged(start[k], v) : v;
  return start;
};

// -- which cell is chosen, and from where a block of them reaches to it -------------------------------------------------------
let from = null, followed = () => {};
/** The cell that a block began at, or null. */
export const anchor = () => from;
/** Calls back with each cell that is chosen. */
export const onChosen = f => { followed = f; };
export const at = (g, td) => { const r = g.findIndex(x => x[0].parentElement === td.parentElement); return [r, r < 0 ? -1 : td.cellIndex]; };
export const block = (grid, a, b) => {
  const g = rowsOf(grid), [r1, c1] = at(g, a), [r2, c2] = at(g, b);
  return g.slice(Math.min(r1, r2), Math.max(r1, r2) + 1).map(row => row.slice(Math.min(c1, c2), Math.max(c1, c2) + 1));
};
export const select = (grid, a, b) => {
  for (const td of all(".sel", grid)) { td.classList.remove("sel"); td.removeAttribute("aria-selected"); }
  if (a !== b) for (const td of block(grid, a, b).flat()) { td.classList.add("sel"); td.setAttribute("aria-selected", "true"); }
};
export function focusCell(td, keep) {
  if (!td) return;
  const grid = gridOf(td);
  unfold(td);
  for (const x of all("td[tabindex='0'], th[tabindex='0']", grid)) x.tabIndex = -1;
  td.tabIndex = 0; td.focus({ preventScroll: false });
  from = keep && from && grid.contains(from) ? from : td;
  select(grid, from, td);
  followed(td);
}
export const chosen = (grid, td) => from && grid.contains(from) ? block(grid, from, td) : [[td]];
