// Theme, print, the filter of the recipes, and figures that follow while somebody types. Every figure comes from the server.
import { $, all, asker, before, onPage, send, take } from "./page.js";
const root = document.documentElement;

// theme: the system's, unless switched
const dark = () => root.dataset.theme ? root.dataset.theme === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
for (const b of all("[data-theme-switch]")) {
  const say = () => { b.textContent = dark() ? "Light" : "Dark"; };
  b.onclick = () => { root.dataset.theme = dark() ? "light" : "dark"; localStorage.setItem("theme", root.dataset.theme); say(); };
  say();
}
for (const b of all("[data-print]")) b.onclick = () => print();

// a wide table fades where more of it lies to the right
const sign = box => box.classList.toggle("more", box.scrollLeft + box.clientWidth < box.scrollWidth - 2);
document.addEventListener("scroll", e => { if (e.target.matches?.(".scroll")) sign(e.target); }, { capture: true, passive: true });
new ResizeObserver(() => all(".scroll").forEach(sign)).observe(document.body);

// live: what depends on a form follows while somebody types. One question at a time, the newest last; the field under the fingers is never touched.
const form = $("form[data-live]");
if (form) {
  const problem = text => { $("#part-problem, #wrong-").textContent = text; };
  const ask = asker(() => form.getAttribute("action") + "?" + new URLSearchParams(new FormData(form)), (page, url, ok) => {
    // A page that is not there any more says why; what was typed stays.
    if (!ok) { problem($("h1 + p", page)?.textContent ?? ""); return; }
    const refused = !!$("#part-problem > *, .wrong > *", page);
    $("main").classList.toggle("stale", refused);
    take(page, part => refused && part.id !== "part-problem" && !part.matches(".wrong"));
    for (const field of all("[aria-describedby]", form)) {
      if (page.getElementById(field.id)?.hasAttribute("aria-invalid")) field.setAttribute("aria-invalid", "true"); else field.removeAttribute("aria-invalid");
    }
    if (refused) return;
    // Which figure leads is for the book to say: one that was emptied leaves it to the mold.
    const lead = $("form[data-live] > [name=lead]", page);
    if (lead) $("[name=lead]", form).value = lead.value;
    const mold = $("select[data-lead]", form), moldNow = mold && page.getElementById(mold.id);
    if (moldNow) {
      if (mold !== document.activeElement && mold.length !== moldNow.length) mold.innerHTML = moldNow.innerHTML;
      if (mold.value !== moldNow.value) mold.value = moldNow.value;
    }
    for (const field of all("input[placeholder]", form)) field.placeholder = page.getElementById(field.id)?.placeholder ?? field.placeholder;
    for (const field of all("input[data-lead]", form)) {
      const now = page.getElementById(field.id);
      if (!now) continue;
      field.parentElement.classList.toggle("lead", now.parentElement.classList.contains("lead"));
      if (field !== document.activeElement) field.value = now.value;
    }
    history.replaceState(null, "", url);
  }, () => problem("The book does not answer. Start it again; what you typed stays here."));
  form.addEventListener("input", e => {
    const leads = e.target.dataset.lead;
    if (leads) $("[name=lead]", form).value = leads;
    ask();
  });
  form.addEventListener("submit", e => { e.preventDefault(); if (!form.dataset.revision) ask(); });
  document.addEventListener("book-changed", ask);
  document.addEventListener("click", e => {
    const back = e.target.closest("[data-mold]");
    if (!back) return;
    e.preventDefault();
    const mold = $("select[data-lead]", form);
    mold.value = back.dataset.mold;
    $("[name=lead]", form).value = mold.dataset.lead;
    mold.focus();
    ask();
  });
  // An emptied field is filled again as soon as nobody is in it.
  form.addEventListener("focusout", e => { if (e.target.dataset.lead && e.target.value === "") ask(); });
  // recipes: a picked colour is typed for the person; more of the list is shown without a new page
  $("#pick")?.addEventListener("input", e => { e.stopPropagation(); $("#near").value = e.target.value; ask(); });
  document.addEventListener("click", e => {
    const more = e.target.closest("[data-more]");
    if (more) { e.preventDefault(); form.elements.show.value = more.dataset.more; ask(); }
  });
  const extra = $("details", form);
  if (extra && matchMedia("(max-width: 78rem)").matches) extra.open = false;
}

// molds: the slice read-out follows the height, in the drawing too
const cut = $("#cut");
if (cut) {
  const tell = () => {
    const text = $("#slices").textContent, slices = text ? JSON.parse(text) : [], s = slices[+cut.value] ?? { mm: "", room: "", area: "" };
    $("#cutter").hidden = !text;
    $("#m-h").textContent = s.mm; $("#m-below").innerHTML = s.room; $("#m-area").innerHTML = s.area;
    cut.setAttribute("aria-valuetext", s.mm + " mm");
    for (const line of all("[data-cut]")) { const [x, x2, floor, perMm] = line.dataset.cut.split(" ").map(Number), y = floor - s.mm * perMm; line.setAttribute("d", `M${x} ${y}H${x2}`); }
  };
  cut.addEventListener("input", tell);
  onPage(tell);
  tell();
}

// what was put away a moment ago, told on the page that comes next, with the way back beside it
const left = JSON.parse(sessionStorage.getItem("put away") ?? "null");
if (left) {
  sessionStorage.removeItem("put away");
  const line = document.createElement("p"), back = document.createElement("button");
  line.className = "gone"; line.setAttribute("role", "status");
  line.append(left.name + " is put away. It stays in the book. ", back);
  back.type = "button"; back.textContent = "Bring it back";
  back.onclick = async () => {
    try {
      const answer = await send(left.path, left.asked);
      if (answer.ok) { location.reload(); return; }
      line.textContent = await answer.text();
    } catch { line.textContent = "The book does not answer, so nothing was changed. Start it again."; }
  };
  $("main").prepend(line);
}
const putAway = (name, path, asked = "") => sessionStorage.setItem("put away", JSON.stringify({ name, path, asked }));

// What is being done is done once, however often it is pressed, until it failed or another page is there.
const doing = new Set();
addEventListener("pageshow", () => doing.clear());

/** Shows a page as it is now; a place on this very page would else be jumped to without asking for it anew. */
const goTo = address => {
  const to = new URL(address, location);
  location.href = to;
  if (to.hash && to.pathname === location.pathname && to.search === location.search) location.reload();
};

// records of the shelf and molds: begun, put away, taken out again
const acted = async (path, asked, then) => {
  const told = $("#act-told");
  if (doing.has(path)) return;
  doing.add(path);
  if (told) told.hidden = true;
  try {
    const answer = await send(path, JSON.stringify(asked));
    if (answer.ok && path === "/put-away") putAway(asked.name, "/take-out", JSON.stringify({ kind: asked.kind, id: asked.id }));
    if (answer.ok) { const said = await answer.json(); location.href = then.endsWith("/") ? then + said.id : then; return; }
    if (told) told.textContent = await answer.text();
  } catch {
    if (told) told.textContent = "The book does not answer, so nothing was changed. Start it again.";
  }
  doing.delete(path);
  if (told) told.hidden = false;
};
document.addEventListener("click", e => {
  const b = e.target.closest("button");
  if (b?.dataset.newRecord) acted("/records", { kind: b.dataset.newRecord, cells: { "/name": "New " + b.dataset.newRecord } }, b.dataset.then);
  if (b?.dataset.putAway) acted("/put-away", { kind: b.dataset.putAway, id: b.dataset.id, name: b.dataset.name ?? b.dataset.id }, b.dataset.then);
  if (b?.dataset.takeOut) acted("/take-out", { kind: b.dataset.takeOut, id: b.dataset.id }, location.pathname);
});

// the working of a figure, opened beneath it
document.addEventListener("click", e => {
  const how = e.target.closest("[data-how]");
  if (!how) return;
  const tr = how.closest("tr"), place = tr ?? how.closest(".figures"), open = place.nextElementSibling?.matches(".opened") ? place.nextElementSibling : null;
  const same = open?.dataset.figure === how.dataset.how;
  open?.remove();
  for (const b of all("[data-how][aria-expanded=true]")) if (b !== how) b.setAttribute("aria-expanded", "false");
  how.setAttribute("aria-expanded", String(!same));
  if (same) return;
  const row = all("[data-figure]", $("#part-work")).find(r => r.dataset.figure.toLowerCase() === how.dataset.how.toLowerCase());
  const [name, value, formula, from] = row ? [...row.cells].map(c => c.textContent.trim()) : [how.dataset.how, "", "is not worked out for this mix", ""];
  const text = document.createElement(tr ? "td" : "p"), bold = document.createElement("b");
  bold.textContent = name + (value ? " = " + value : "");
  text.append(bold, ": " + formula + (from ? " (" + from + ")" : "") + ".");
  const made = tr ? document.createElement("tr") : document.createElement("div");
  if (tr) text.colSpan = tr.cells.length;
  made.className = "opened"; made.dataset.figure = how.dataset.how; made.append(text);
  place.after(made);
});

// recipe: a changed formula is kept as a new revision; where it can't be, what was typed stays and the reason is told
const formula = $("form[data-revision]");
if (formula) formula.addEventListener("submit", async e => {
  e.preventDefault();
  const told = $("#not-saved"), button = $("button[type=submit]", formula);
  told.hidden = true; button.disabled = true;
  try {
    const answer = await send(formula.dataset.revision, new URLSearchParams(new FormData(formula)));
    if (answer.ok) { location.href = formula.getAttribute("action"); return; }
    // The version there now: saving once more keeps this formula on top of it.
    if (answer.headers.has("X-Version")) formula.elements.base.value = answer.headers.get("X-Version");
    told.textContent = await answer.text();
  } catch {
    told.textContent = "The book does not answer, so nothing was saved. Start it again; what you typed stays here.";
  }
  told.hidden = false; button.disabled = false;
});

// new, copy, put away: done by the server, which answers with where to go next
document.addEventListener("submit", async e => {
  const act = e.target.closest("form[data-act]");
  if (!act) return;
  e.preventDefault();
  if (doing.has(act)) return;
  doing.add(act);
  const told = $("[role=alert]", act);
  told.hidden = true;
  try {
    const hindrance = await before.get(act)?.();
    if (hindrance) told.textContent = hindrance;
    else {
      const answer = await send(act.dataset.act, new URLSearchParams(new FormData(act)));
      const text = await answer.text();
      if (answer.ok && act.dataset.back) putAway($("#r-name").textContent, act.dataset.back);
      if (answer.ok) { goTo(text); return; }
      told.textContent = text;
    }
  } catch {
    told.textContent = "The book does not answer, so nothing was changed. Start it again.";
  }
  doing.delete(act);
  told.hidden = false;
});

// photos: handed in one after the other as the camera made them; the book makes them small and upright
const photos = $("[data-photos]");
if (photos) photos.addEventListener("change", async () => {
  const told = $("#photo-told");
  told.hidden = true;
  for (const file of photos.files) {
    try {
      const answer = await send(photos.dataset.photos, file);
      if (!answer.ok) { told.textContent = file.name + ": " + await answer.text(); told.hidden = false; return; }
    } catch { told.textContent = "The book does not answer, so this photo was not kept. Start it again."; told.hidden = false; return; }
  }
  location.reload();
});

// a filled-in sheet: shown first, kept when a person says so
const sheet = $("[data-sheet]");
if (sheet) {
  const told = $("#sheet-told"), shown = $("#sheet-shown");
  const hand = async path => {
    told.hidden = true;
    try {
      const answer = await send(path, sheet.files[0]), text = await answer.text();
      if (answer.ok) return text;
      told.textContent = text;
    } catch { told.textContent = "The book does not answer, so nothing was kept. Start it again."; }
    told.hidden = false;
    return null;
  };
  sheet.addEventListener("change", async () => { shown.replaceChildren(); const html = await hand("/read-back"); if (html != null) shown.innerHTML = html; });
  shown.addEventListener("click", async e => { if (!e.target.closest("[data-keep-sheet]")) return; const there = await hand("/read-back/keep"); if (there != null) location.href = there; });
}

// a look answers while its depth is slid: one question at a time, the newest last
const slide = $("[data-look]");
if (slide) {
  const shown = $("#look-shown");
  const ask = asker(() => slide.dataset.look + "&depth=" + slide.elements.depth.value + "+mm&backing=" + slide.elements.backing.value,
    (page, url, ok) => { if (ok) shown.replaceChildren(...page.body.childNodes); else shown.textContent = $("h1 + p", page)?.textContent ?? ""; },
    () => { shown.textContent = "The book does not answer. Start it again."; });
  const answer = () => { $("#k-said").textContent = slide.elements.depth.value; ask(); };
  slide.addEventListener("input", answer);
  slide.addEventListener("submit", e => e.preventDefault());
  // The formula above may have changed what is looked at.
  onPage(page => { const now = $("[data-look]", page); if (now && now.dataset.look !== slide.dataset.look) { slide.dataset.look = now.dataset.look; answer(); } });
  answer();
}
for (const pick of all("[data-into]")) pick.addEventListener("input", () => { $("#" + pick.dataset.into).value = pick.value; });
