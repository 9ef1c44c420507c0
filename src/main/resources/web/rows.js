// For fingers: what can be done with the row that is chosen stands beneath its sheet, and long parts of a page fold.
import { $, all } from "./page.js";

/**
 * A line beneath a sheet that follows the chosen row; the style sheet shows it where there is a finger or little room.
 * acts: what a row can do, as { label, run } or null; undo: takes the last step back.
 */
export function rowBar(act) {
  const bar = document.createElement("div"), words = document.createElement("p"), button = document.createElement("button");
  bar.className = "rowbar"; words.setAttribute("role", "status"); button.type = "button";
  bar.append(words, button);
  let run = () => {};
  button.addEventListener("click", () => run());
  // The sheet keeps what is typed in it until the finger is lifted from the button.
  button.addEventListener("mousedown", e => { const open = $("td > input, td > select"); if (open) open.blur(); e.preventDefault(); });
  const stand = (grid, text, label, does) => {
    const place = grid.closest(".scroll") ?? grid;
    if (place.nextElementSibling !== bar) place.after(bar);
    words.textContent = text; button.textContent = label; run = does;
  };
  return {
    at(td) {
      const row = td.parentElement, can = act(row);
      if (!can) { bar.remove(); return; }
      const name = (row.querySelector("th") ?? row.cells[0]).textContent.trim();
      stand(row.closest("table"), name, can.label, can.run);
      button.setAttribute("aria-label", can.label + (name ? ": " + name : ""));
    },
    gone(grid, text, undo) {
      stand(grid, text, "Undo", () => { bar.remove(); undo(); });
      button.removeAttribute("aria-label");
    },
  };
}

/** Opens the fold that something lies in, so that it can be seen and reached. */
export const unfold = e => { const fold = e?.closest("details.fold"); if (fold) fold.open = true; };

// Folds are open where there is room; on a phone they are folded until somebody opens them, and stay as they were left.
const narrow = matchMedia("(max-width: 40rem)"), key = fold => "fold " + location.pathname + " " + fold.id;
for (const fold of all("details.fold")) {
  if (narrow.matches) fold.open = sessionStorage.getItem(key(fold)) === "open";
  fold.addEventListener("toggle", () => { if (narrow.matches) sessionStorage.setItem(key(fold), fold.open ? "open" : "folded"); });
}
narrow.addEventListener("change", () => { if (!narrow.matches) for (const fold of all("details.fold")) fold.open = true; });
addEventListener("beforeprint", () => { for (const fold of all("details.fold")) fold.open = true; });
// A button that begins a record leads to the empty row where it is typed.
document.addEventListener("click", e => {
  const begin = e.target.closest("[data-begin]"), cell = begin && $(`tr[data-new=${begin.dataset.begin}] td[data-path]`);
  if (cell) { unfold(cell); cell.scrollIntoView({ block: "center" }); cell.focus(); }
});
document.addEventListener("click", e => {
  const jump = e.target.closest("a[data-jump]"), part = jump && document.getElementById(jump.hash.slice(1));
  if (part) unfold($("details.fold", part.closest("section"))?.firstElementChild);
});
