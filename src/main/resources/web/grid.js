// Sheets that are edited like a spreadsheet. A cell with data-path belongs to a record and is saved as one goes; a cell with
// data-field belongs to a form whose figures follow. What is shown and what is saved are kept apart, so nothing typed is lost.
import { anchor, at, can, cellOf, cellsByKey, chosen, focusCell, gridOf, idOf, isNew, keyOf, kindOf, merged, nested, newCells, onChosen, rowsOf, textOf } from "./cells.js";
import { $, all, ask, asker, fromHtml, fromTsv, onPage, Refused, send, take, tsv } from "./page.js";
import { rowBar, unfold } from "./rows.js";

// -- what is kept, and what is still to be: by cell, what the book says there and what was typed ----------------------------
const typed = new Map(); // key → { kind, id, path, was, now, state: "waiting" | "sent" | "wrong" | "elsewhere", text }
const undone = { back: [], on: [] };
let sending = false, retry = 0;

const mark = (word, text) => {
  const s = $("#saved");
  if (s) { s.className = word; if (s.textContent !== text) s.textContent = text; }
};
const tellMark = () => {
  const open = [...typed.values()], waits = open.some(e => e.state === "waiting" || e.state === "sent");
  if (retry && waits) mark("saving", "Not saved yet: the book does not answer. Trying again; what you typed stays here.");
  else if (waits) mark("saving", "Saving");
  else if (open.length) mark("saving", open.length === 1 ? "One entry is not saved" : open.length + " entries are not saved");
  else mark("saved", "Saved");
  for (const [id, list] of [["#undo", undone.back], ["#redo", undone.on]]) { const b = $(id); if (b) b.hidden = !list.length; }
};
addEventListener("beforeunload", e => { if ([...typed.values()].some(x => x.state !== "wrong")) e.preventDefault(); });

// what was typed and not kept survives a reload of this window
const store = () => sessionStorage.setItem("typed " + location.pathname, JSON.stringify([...typed]));
const recall = () => {
  try {
    for (const [key, e] of JSON.parse(sessionStorage.getItem("typed " + location.pathname) ?? "[]")) typed.set(key, { ...e, state: e.state === "sent" ? "waiting" : e.state });
  } catch { /* what can't be read was not ours */ }
};

const reasons = row => {
  const next = row.nextElementSibling, told = [...row.cells].filter(td => td.dataset.wrong !== undefined);
  if (next?.matches(".reason")) next.remove();
  if (!told.length) return;
  const line = document.createElement("tr"), td = document.createElement("td");
  line.className = "reason"; td.colSpan = Math.max(1, row.cells.length); line.append(td);
  for (const cell of told) {
    const p = document.createElement("p");
    p.id = "r" + Math.random().toString(36).slice(2);
    cell.setAttribute("aria-describedby", p.id);
    const e = typed.get(keyOf(cell)), name = cell.dataset.h ? cell.dataset.h + ": " : "";
    p.textContent = name + cell.dataset.wrong;
    if (e?.state === "elsewhere") {
      p.textContent = `${name}changed elsewhere meanwhile. There it is “${e.text || "empty"}”; you typed “${e.now || "nothing"}”. `;
      for (const [label, act] of [["Keep mine", () => { e.was = e.text; e.state = "waiting"; show(cell); flush(); }], ["Take theirs", () => { typed.delete(keyOf(cell)); cell.textContent = e.text; show(cell); store(); tellMark(); }]]) {
        const b = document.createElement("button");
        b.type = "button"; b.className = "plain"; b.textContent = label; b.onclick = () => { act(); focusCell(cell); };
        p.append(b, " ");
      }
    }
    td.append(p);
  }
  row.after(line);
};

/** Draws a cell as it stands: what was typed, marked where it is wrong. */
const show = td => {
  const e = typed.get(keyOf(td)), bad = e && (e.state === "wrong" || e.state === "elsewhere");
  if (e && !td.querySelector("input, select")) { if (td.textContent.trim() !== e.now) td.textContent = e.now; }
  if (bad) td.dataset.wrong = e.text; else if (!td.dataset.field) delete td.dataset.wrong;
  const wrong = td.dataset.wrong !== undefined;
  td.classList.toggle("wrong", wrong);
  if (wrong) td.setAttribute("aria-invalid", "true"); else { td.removeAttribute("aria-invalid"); td.removeAttribute("aria-describedby"); }
  reasons(td.parentElement);
};

/** Tells beneath a row why it is not kept. missing: the path of what is still to be typed, where that is all. */
const failedRow = (row, { message, missing }) => {
  for (const td of row.cells) { delete td.dataset.wrong; td.classList.remove("wrong"); td.removeAttribute("aria-invalid"); }
  const path = missing?.slice(row.dataset.add && missing.startsWith(row.dataset.add + "/") ? row.dataset.add.length : 0);
  const open = path && [...row.cells].find(td => td.dataset.path === path);
  if (open) {
    // What is still to be typed is no mistake: it is asked for by the name of its column.
    open.dataset.wrong = "still to be typed.";
    reasons(row);
    row.nextElementSibling.classList.add("wanting");
    return;
  }
  const cell = [...row.cells].filter(td => td.dataset.path).findLast(td => textOf(td)) ?? row.cells[0];
  cell.dataset.wrong = message; cell.classList.add("wrong"); cell.setAttribute("aria-invalid", "true");
  reasons(row);
};

/** Adds entries to a record's lists or takes some out. */
const editLists = async (kind, id, edits) => {
  const { outcomes } = await ask("/edits", { kind, id, edits }), bad = outcomes.find(o => o.state !== "saved");
  if (bad) throw new Refused(bad.state === "refused" ? bad.text : "This row was changed elsewhere meanwhile, so it stays.", bad.missing);
  return outcomes;
};

// New rows are kept one after the other, and the page is asked for anew once all of them are.
const begun = new Set();
const made = new WeakMap(); // a row that is kept, until the page shows it as one → { kind, id, at, was: path → text }
let keeping = false;
async function keepRows() {
  if (keeping) return;
  keeping = true;
  const rows = [], records = [];
  for (const row of begun) {
    begun.delete(row);
    if (made.has(row)) continue;
    try { await keepRow(row, rows, records); } catch (e) {
      const silent = !(e instanceof Refused);
      failedRow(row, silent ? { message: "The book does not answer, so this row is not saved yet. Start the book again and change a cell here." } : e);
      mark("saving", silent ? "Not saved yet: the book does not answer." : "One row is not saved");
    }
  }
  keeping = false;
  if (rows.length) undone.back.push({ rows });
  if (records.length) undone.back.push({ records });
  if (!rows.length && !records.length) return;
  undone.on = [];
  await refresh();
  flush();
}

/** A new row is kept once the book can read it; until then it stays as typed, with what is missing beneath. */
async function keepRow(row, rows, records) {
  const cells = newCells(row), add = row.dataset.add, kind = row.dataset.new ?? kindOf(row.cells[0]);
  if (!Object.keys(cells).length) { for (const td of row.cells) delete td.dataset.wrong; reasons(row); return; }
  mark("saving", "Saving");
  let id = idOf(row.cells[0]);
  if (add) {
    const [{ entry }] = await editLists(kind, id, [{ what: "add", path: add, was: "", now: JSON.stringify(merged(JSON.parse(row.dataset.start ?? "{}"), nested(cells))) }]);
    rows.push({ kind, id, list: [{ path: add, entry }], added: true });
    const [, list, place] = /^(.*\/)(\d+)$/.exec(add);
    for (const other of all("tr[data-add]", row.closest("table"))) if (other !== row && other.dataset.add === add) other.dataset.add = list + (+place + 1);
  } else {
    ({ id } = await ask("/records", { kind, cells }));
    records.push({ kind, id, added: true });
  }
  made.set(row, { kind, id, at: add ?? "", was: cells });
  for (const td of row.cells) if (td.dataset.path) { delete td.dataset.wrong; const text = textOf(td); if (!td.querySelector("input, select") && text !== (cells[td.dataset.path] ?? "")) typeOn(td, text); }
  reasons(row);
}

/** What was typed into a new row while it was being kept goes into the record it is now. */
const typeOn = (td, text) => {
  const { kind, id, at, was } = made.get(td.parentElement), path = at + td.dataset.path;
  typed.set([kind, id, path].join(" "), { kind, id, path, was: was[td.dataset.path] ?? "", now: text, state: "waiting", text: "" });
};

/** Sends what waits, a record at a time and in order. What the book refuses stays marked in its cell. */
async function flush() {
  store(); tellMark();
  if (sending) return;
  const first = [...typed.values()].find(e => e.state === "waiting");
  if (!first) { retry = 0; return; }
  sending = true;
  const mine = [...typed.entries()].filter(([, e]) => e.kind === first.kind && e.id === first.id && e.state !== "elsewhere").slice(0, 2000);
  // Entries that are emptied leave their list: from the end, so that those before keep their places.
  const place = ([, e]) => e.now === "" && /\/\d+$/.test(e.path) ? +e.path.split("/").at(-1) : -1;
  mine.sort((a, b) => place(b) - place(a));
  for (const [, e] of mine) if (e.state === "waiting") e.state = "sent";
  const sent = mine.map(([, e]) => ({ ...e }));
  try {
    const answer = await send("/edits", JSON.stringify({ kind: first.kind, id: first.id, edits: sent.map(e => ({ path: e.path, was: e.was, now: e.now })) }));
    const said = answer.ok ? await answer.json() : null, text = said ? "" : await answer.text();
    const cells = cellsByKey();
    retry = 0;
    mine.forEach(([key, e], i) => {
      const outcome = said?.outcomes[i] ?? { state: "refused", text }, newer = e.now !== sent[i].now, td = cells.get(key);
      if (outcome.state === "saved") {
        if (newer) { e.was = sent[i].now; e.state = "waiting"; } else typed.delete(key);
      } else if (!newer) { e.state = outcome.state === "refused" ? "wrong" : "elsewhere"; e.text = outcome.text; } else e.state = "waiting";
      if (td) show(td);
    });
    sending = false;
    await refresh();
  } catch {
    sending = false; retry++;
    for (const [, e] of mine) if (e.state === "sent") e.state = "waiting";
    store(); tellMark();
    setTimeout(flush, Math.min(5000, 500 * retry));
    return;
  }
  flush();
}

/** Sets cells: [cell, text]. One call is one step to undo. */
function change(list, keep = true) {
  const steps = [];
  for (const [td, text] of list) {
    if (!can(td)) continue;
    const key = keyOf(td), from = textOf(td);
    if (from === text) continue;
    steps.push({ key, from, to: text });
    if (td.dataset.field) { td.dataset.typed = text; td.textContent = text; field(td, text, true); continue; }
    if (isNew(td)) { td.textContent = text; if (made.has(td.parentElement)) typeOn(td, text); continue; }
    const e = typed.get(key), was = e ? e.was : from;
    td.textContent = text;
    if (was === text && e?.state !== "sent") typed.delete(key);
    else typed.set(key, { kind: kindOf(td), id: idOf(td), path: td.dataset.path, was, now: text, state: "waiting", text: "" });
    show(td);
  }
  if (keep && steps.length) { undone.back.push({ steps }); undone.on = []; }
  for (const [td] of list) if (isNew(td)) begun.add(td.parentElement);
  if (begun.size) keepRows();
  flush();
}

const field = (td, text, anew) => {
  const box = gridOf(td).closest("form")?.elements[td.dataset.field] ?? document.getElementById(td.dataset.form)?.elements[td.dataset.field];
  if (box && (anew || box.value !== text)) { box.value = text; box.dispatchEvent(new Event("input", { bubbles: true })); }
};

async function step(from, to) {
  const s = from.pop();
  if (!s) return;
  if (s.steps) {
    const cells = cellsByKey(), back = s.steps.map(x => ({ key: x.key, from: x.to, to: x.from })), found = back.map(x => [cells.get(x.key), x.to]).filter(([td]) => td);
    to.push({ steps: back });
    change(found, false);
    if (found.length) focusCell(found[0][0]);
  } else {
    const rows = (s.rows ?? []).map(r => ({ ...r, added: !r.added })), records = (s.records ?? []).map(r => ({ ...r, added: !r.added }));
    try {
      for (const r of rows.toReversed()) await editLists(r.kind, r.id, r.list.map(x => r.added ? { what: "add", path: x.path, now: x.entry } : { what: "take-out", path: x.path, was: x.entry }));
      for (const r of records) await ask(r.added ? "/take-out" : "/put-away", { kind: r.kind, id: r.id });
      to.push(s.rows ? { rows: rows.toReversed() } : { records });
      await refresh();
    } catch (e) {
      if (e instanceof Refused) await refresh(); else from.push(s);
      tellMark();
      mark("saving", e instanceof Refused ? e.message : "The book does not answer, so nothing was undone.");
      return;
    }
  }
  tellMark();
}

/** Takes rows out: entries of a list from their record, records from the shelf into what is put away. */
async function takeOut(trs) {
  // What was typed last is kept first: a record that is put away takes no more edits.
  while (!retry && (sending || [...typed.values()].some(e => e.state === "waiting"))) await new Promise(done => setTimeout(done, 20));
  const lists = trs.filter(r => r.dataset.take).toReversed(), records = trs.filter(r => r.dataset.away !== undefined);
  if (!lists.length && !records.length) return;
  const grid = trs[0].closest("table"), kept = { rows: [], records: [] }, stays = [];
  const stay = (row, e) => { if (!(e instanceof Refused)) throw e; stays.push([rowKey(row), e]); };
  try {
    for (const r of lists) {
      const list = r.dataset.take.split(" ").map((path, i) => ({ path, entry: JSON.stringify(JSON.parse(r.dataset.entry)[i]) })), cell = r.cells[0];
      try { await editLists(kindOf(cell), idOf(cell), list.map(x => ({ what: "take-out", path: x.path, was: x.entry }))); } catch (e) { stay(r, e); continue; }
      kept.rows.push({ kind: kindOf(cell), id: idOf(cell), list, added: false });
    }
    for (const r of records) {
      try { await ask("/put-away", { kind: r.dataset.kind, id: r.dataset.id }); } catch (e) { stay(r, e); continue; }
      kept.records.push({ kind: r.dataset.kind, id: r.dataset.id, added: false });
    }
  } catch { mark("saving", "The book does not answer, so nothing was taken out."); return; }
  if (kept.rows.length) undone.back.push({ rows: kept.rows });
  if (kept.records.length) undone.back.push({ records: kept.records });
  undone.on = [];
  const at = rowsOf(grid).findIndex(r => r[0].parentElement === trs[0]), mine = undone.back.at(-1), away = kept.records.map(r => r.id).join(", ");
  await refresh();
  for (const [key, e] of stays) { const row = all("tbody tr", grid).find(r => rowKey(r) === key); if (row) failedRow(row, e); }
  const left = rowsOf(grid);
  if (left.length) focusCell(left[Math.min(at, left.length - 1)].find(can) ?? left[0][0]);
  if (kept.rows.length || kept.records.length) bar.gone(grid, away ? away + " is put away." : "The row is taken out.", () => { if (undone.back.at(-1) === mine) step(undone.back, undone.on); });
  tellMark();
}

/** What a finger may do with a row that has no button of its own: put a record away, leave a pigment out, clear what is begun. */
const bar = rowBar(row => {
  if (row.dataset.away !== undefined) return { label: "Put away", run: () => takeOut([row]) };
  const percent = row.querySelector("td[data-field^='percent-']"), begun = [...row.cells].filter(td => can(td) && textOf(td));
  if (percent) return textOf(percent) ? { label: "Leave it out", run: () => { change([[percent, ""]]); leftOut(row, percent); } } : null;
  if (row.matches("[data-new], [data-add]") && begun.length) return { label: "Clear this row", run: () => { change(begun.map(td => [td, ""])); focusCell(begun[0]); } };
  return null;
});
onChosen(td => bar.at(td));
const leftOut = (row, cell) => {
  const mine = undone.back.at(-1);
  focusCell(cell);
  bar.gone(gridOf(cell), row.querySelector("th").textContent.trim() + " is left out.", () => { if (undone.back.at(-1) === mine) step(undone.back, undone.on); });
};

// -- a newer state of the page ----------------------------------------------------------------------------------------------
const rowKey = tr => tr.dataset.row ?? "";
const sameRows = (a, b) => a.length === b.length && a.every((tr, i) => rowKey(tr) === rowKey(b[i]) && tr.cells.length === b[i].cells.length);
onPage(page => {
  for (const grid of all("table[role=grid][id]")) {
    const next = page.getElementById(grid.id);
    if (!next) continue;
    const own = all("tbody tr:not(.reason)", grid), theirs = all("tbody tr", next);
    if (!sameRows(own, theirs)) {
      if (grid.querySelector("td input, td select")) continue;
      const focused = grid.contains(document.activeElement) ? document.activeElement.closest("td") : null, key = focused && keyOf(focused);
      // Rows that are begun and can't be kept yet stay as they are typed, where the page has its empty one.
      const open = own.filter(tr => tr.matches("[data-new], [data-add]") && !made.has(tr) && Object.keys(newCells(tr)).length)
        .flatMap(tr => tr.nextElementSibling?.matches(".reason") ? [tr, tr.nextElementSibling] : [tr]);
      grid.tBodies[0].innerHTML = next.tBodies[0].innerHTML;
      const empty = open.length && $("tr[data-new], tr[data-add]", grid);
      if (empty) {
        for (const tr of open) if (tr.dataset.add) tr.dataset.add = empty.dataset.add;
        empty.replaceWith(...open);
      }
      if (next.tHead && grid.tHead) grid.tHead.innerHTML = next.tHead.innerHTML;
      ready(grid);
      const again = key && cellOf(key);
      if (again) focusCell(again);
    } else own.forEach((tr, r) => {
      for (const name of ["take", "entry", "id"]) if (theirs[r].dataset[name] !== undefined) tr.dataset[name] = theirs[r].dataset[name];
      [...tr.cells].forEach((td, c) => {
        const now = theirs[r].cells[c];
        if (td.querySelector("input, select") || isNew(td)) return;
        if (!typed.has(keyOf(td))) {
          if (td.innerHTML !== now.innerHTML) td.innerHTML = now.innerHTML;
          delete td.dataset.typed;
        }
        td.classList.toggle("lead", now.classList.contains("lead"));
        if (td.dataset.field) { if (now.dataset.wrong !== undefined) td.dataset.wrong = now.dataset.wrong; else delete td.dataset.wrong; }
        if (td.dataset.path || td.dataset.field) show(td);
      });
    });
  }
  const cells = typed.size ? cellsByKey() : null;
  for (const key of typed.keys()) { const td = cells.get(key); if (td) show(td); }
});

const draft = () => {
  const list = [...typed.values()].map(e => ({ path: e.path, was: e.was, now: e.now }));
  const box = document.activeElement, td = box?.matches?.("td > input, td > select") ? box.parentElement : null;
  if (td?.dataset.path && !isNew(td)) {
    const path = td.dataset.path, there = list.find(e => e.path === path);
    if (there) there.now = box.value.trim(); else list.push({ path, was: td.dataset.was ?? "", now: box.value.trim() });
  }
  return list;
};
const preview = () => $("table[role=grid][data-preview]") !== null;
let wait = null;
const reload = asker(() => {
  const url = new URL(location.href), list = preview() ? draft() : [];
  if (list.length) url.searchParams.set("draft", JSON.stringify(list));
  return url;
}, (page, url, ok) => { if (ok) take(page); wait?.(); wait = null; }, () => { wait?.(); wait = null; });
const refresh = () => $("form[data-live]") && !preview() ? Promise.resolve(document.dispatchEvent(new Event("book-changed")))
  : new Promise(done => { const before = wait; wait = () => { before?.(); done(); }; reload(); });

// -- under the fingers ------------------------------------------------------------------------------------------------------
function edit(td, text) {
  if (!can(td) || td.querySelector("input, select")) return;
  const grid = gridOf(td), old = textOf(td), choices = td.dataset.choices?.split("|");
  const box = document.createElement(choices ? "select" : "input");
  if (choices) {
    for (const c of choices.includes(old) ? choices : [old, ...choices]) box.append(new Option(c === "" ? "none" : c, c, false, c === old));
    if (text) box.value = choices.find(c => c.toLowerCase().startsWith(text.toLowerCase())) ?? old;
  } else { box.value = text ?? old; box.autocomplete = "off"; box.spellcheck = false; }
  box.setAttribute("aria-label", td.dataset.h ?? td.parentElement.querySelector("th")?.textContent ?? "Entry");
  td.dataset.was = typed.get(keyOf(td))?.was ?? old;
  td.textContent = ""; td.append(box); box.focus();
  if (!choices && text === undefined) box.select();
  let open = true;
  const bare = v => td.dataset.unit && /^[\d.,/ ]*\d[\d.,/ ]*$/.test(v) ? v.trim() + " " + td.dataset.unit : v;
  const close = keep => {
    if (!open) return;
    open = false;
    const v = bare(box.value.trim());
    box.onblur = null;
    td.textContent = old;
    if (keep && v !== old) change([[td, v]]);
    else { if (td.dataset.field) field(td, old); else if (typed.has(keyOf(td))) show(td); else if (preview() || made.has(td.parentElement)) reload(); }
  };
  box.addEventListener("input", () => { if (td.dataset.field) field(td, bare(box.value.trim())); else if (preview() && !isNew(td)) reload(); });
  // Letters and arrows go through the choices; only a choice made by hand closes at once.
  let keyed = false;
  if (choices) { box.addEventListener("mousedown", () => { keyed = false; }); box.addEventListener("change", () => { if (!keyed) { close(true); focusCell(td); } }); }
  box.onblur = () => close(true);
  box.onkeydown = e => {
    e.stopPropagation();
    keyed = true;
    if (e.key === "Escape") { e.preventDefault(); close(false); focusCell(td); }
    else if (e.key === "Enter" || e.key === "Tab") {
      e.preventDefault();
      const g = rowsOf(grid), [r, c] = at(g, td);
      close(true);
      e.key === "Enter" ? focusCell(rowsOf(grid)[r + (e.shiftKey ? -1 : 1)]?.[c] ?? td) : next(grid, rowsOf(grid)[r]?.[c] ?? td, e.shiftKey);
    }
  };
}
const next = (grid, td, back) => {
  const line = rowsOf(grid).flat().filter(can), to = line[line.indexOf(td) + (back ? -1 : 1)];
  focusCell(to ?? td);
  return !!to;
};

/** Where Ctrl and an arrow lead: to the end of the run of filled cells, or to the next filled one. */
const edge = (g, r, c, dr, dc) => {
  const full = (y, x) => g[y]?.[x] && textOf(g[y][x]) !== "", there = (y, x) => g[y]?.[x];
  let y = r + dr, x = c + dc;
  if (!there(y, x)) return g[r][c];
  const run = full(r, c) && full(y, x);
  while (there(y + dr, x + dc) && (run ? full(y + dr, x + dc) : !full(y, x))) { y += dr; x += dc; }
  return g[y][x];
};

const copy = (e, grid, td) => {
  const cells = chosen(grid, td), texts = cells.map(row => row.map(textOf));
  const esc = t => t.replace(/[&<>]/g, c => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;" })[c]);
  e.clipboardData.setData("text/plain", texts.map(row => row.map(tsv).join("\t")).join("\n"));
  e.clipboardData.setData("text/html", "<table>" + texts.map(row => "<tr>" + row.map(t => "<td>" + esc(t) + "</td>").join("") + "</tr>").join("") + "</table>");
  e.preventDefault();
};

function paste(grid, td, rows) {
  const [[one]] = [rows[0] ?? [""]], list = [];
  const g = rowsOf(grid), into = chosen(grid, td), [r, c] = at(g, into[0][0]);
  if (rows.length === 1 && rows[0].length === 1) { for (const x of into.flat()) list.push([x, one]); return change(list); }
  const last = all("tr[data-new], tr[data-add]", grid).at(-1);
  rows.forEach((cells, i) => {
    let row = g[r + i];
    if (!row) {
      // A block longer than the sheet makes rows of its own, where the sheet takes new ones.
      if (!last) return;
      const more = last.cloneNode(true);
      for (const x of more.cells) { if (x.dataset.path) x.textContent = ""; delete x.dataset.wrong; x.classList.remove("wrong", "sel"); }
      more.dataset.row = rowKey(last) + i;
      grid.tBodies[0].append(more);
      row = [...more.cells];
      g.push(row);
    }
    cells.forEach((text, j) => { if (row[c + j]) list.push([row[c + j], text]); });
  });
  change(list);
}

function keys(e) {
  const td = e.target.closest("td, th"), grid = td && gridOf(td);
  if (!grid || e.target !== td) return;
  const g = rowsOf(grid), [r, c] = at(g, td), ctrl = e.ctrlKey || e.metaKey;
  if (r < 0) return;
  const far = ctrl && e.key.startsWith("Arrow");
  const to = far ? { ArrowUp: edge(g, r, c, -1, 0), ArrowDown: edge(g, r, c, 1, 0), ArrowLeft: edge(g, r, c, 0, -1), ArrowRight: edge(g, r, c, 0, 1) }
    : { ArrowUp: g[r - 1]?.[c], ArrowDown: g[r + 1]?.[c], ArrowLeft: g[r][c - 1], ArrowRight: g[r][c + 1], PageUp: g[Math.max(0, r - 10)][c], PageDown: g[Math.min(g.length - 1, r + 10)][c],
      Home: (ctrl ? g[0] : g[r])[0], End: (ctrl ? g.at(-1) : g[r]).at(-1) };
  const line = chosen(grid, td).flat();
  if (e.key in to) { e.preventDefault(); focusCell(to[e.key], e.shiftKey); }
  else if (e.key === "Tab" && !grid.dataset.leave) { if (next(grid, td, e.shiftKey)) e.preventDefault(); }
  else if (ctrl && e.key === "a") { e.preventDefault(); focusCell(g[0][0]); focusCell(g.at(-1).at(-1), true); }
  else if (ctrl && e.key.toLowerCase() === "d") { e.preventDefault(); const b = chosen(grid, td); change(b.slice(1).flatMap(row => row.map((x, i) => [x, textOf(b[0][i])]))); }
  else if (ctrl && e.key === "Delete") { e.preventDefault(); takeOut([...new Set(line.map(x => x.parentElement))]); }
  else if (e.key === "Enter" || e.key === "F2") { e.preventDefault(); const link = td.querySelector("a, button"); can(td) ? edit(td) : link?.click(); }
  else if (e.key === "Escape") { const t = typed.get(keyOf(td)); if (t && t.state === "wrong") change([[td, t.was]]); focusCell(td); grid.dataset.leave = "1"; return; }
  else if (e.key === "Delete" || e.key === "Backspace") { e.preventDefault(); change(line.filter(can).map(x => [x, ""])); }
  else if (e.key.length === 1 && !ctrl && !e.altKey && can(td)) { e.preventDefault(); edit(td, e.key); }
  if (e.key !== "Tab") delete grid.dataset.leave;
}

const ready = grid => {
  const g = rowsOf(grid), flat = g.flat();
  for (const td of flat) { if (td.tabIndex !== 0) td.tabIndex = -1; if (td.tagName === "TD" && !can(td)) td.setAttribute("aria-readonly", "true"); }
  if (!flat.some(td => td.tabIndex === 0)) { const first = flat.find(can) ?? flat[0]; if (first) first.tabIndex = 0; }
  for (const td of flat) if (td.dataset.wrong !== undefined && !isNew(td)) show(td);
};

let drag = false;
document.addEventListener("mousedown", e => {
  const td = e.target.closest("td, th"), grid = td && gridOf(td);
  if (!grid || e.target.closest("input, select, a, button") || e.button || !td.closest("tbody") || td.closest(".reason")) return;
  e.preventDefault();
  const open = $("td > input, td > select"); if (open) open.blur();
  focusCell(td, e.shiftKey); drag = true;
});
document.addEventListener("mouseover", e => { const td = drag && e.buttons && e.target.closest("td, th"); if (td && anchor() && gridOf(td) === gridOf(anchor()) && td.closest("tbody")) focusCell(td, true); });
addEventListener("mouseup", () => { drag = false; });
document.addEventListener("dblclick", e => { const td = e.target.closest("td"); if (td && gridOf(td)) edit(td); });
document.addEventListener("click", e => {
  const out = e.target.closest("[data-out]");
  if (out) takeOut([out.closest("tr")]);
  const td = e.target.closest("td");
  if (td && gridOf(td) && e.pointerType === "touch") edit(td);
});
document.addEventListener("keydown", e => {
  const ctrl = e.ctrlKey || e.metaKey, k = e.key.toLowerCase();
  if (ctrl && (k === "z" || k === "y") && !e.target.matches("input, textarea, select")) { e.preventDefault(); k === "y" || e.shiftKey ? step(undone.on, undone.back) : step(undone.back, undone.on); }
  else keys(e);
});
for (const [name, act] of [["copy", copy], ["cut", (e, grid, td) => { copy(e, grid, td); change(chosen(grid, td).flat().filter(can).map(x => [x, ""])); }],
  ["paste", (e, grid, td) => { const plain = e.clipboardData.getData("text/plain"); e.preventDefault(); paste(grid, td, plain ? fromTsv(plain) : fromHtml(e.clipboardData.getData("text/html"))); }]]) {
  document.addEventListener(name, e => {
    const focus = document.activeElement, td = focus?.closest?.("td, th"), grid = td && gridOf(td);
    if (grid && focus === td) act(e, grid, td);
  });
}
for (const [id, act] of [["#undo", () => step(undone.back, undone.on)], ["#redo", () => step(undone.on, undone.back)]]) { const b = $(id); if (b) b.onclick = act; }

recall();
for (const grid of all("table[role=grid]")) ready(grid);
const waiting = cellsByKey();
for (const key of typed.keys()) { const td = waiting.get(key); if (td) { unfold(td); show(td); } }
if (typed.size) flush();
// Another window or an editor may have changed the book: look when this window is looked at again.
addEventListener("focus", () => { if ($("table[role=grid][id]") && !$("td > input, td > select")) refresh(); });
