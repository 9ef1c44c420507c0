// A table or a pack is brought in: shown first, its columns chosen by hand where they were guessed wrong, and kept when a person says so.
import { $, all, send } from "./page.js";
const box = $("#bring"), told = $("#bring-told"), say = $("#bring-say"), shown = $("#brought"), columns = new Map();
let file = null, busy = false, again = false;

const silent = "The book does not answer, or the file was changed since it was chosen. Nothing was kept. Choose the file again.";
const tell = text => { told.textContent = text; told.hidden = !text; };

/** What was answered by hand: one line of JSON, before the file's own bytes. */
const asked = () => {
  const answers = { name: file.name, columns: Object.fromEntries(columns), drops: {}, seen: $("[data-seen]", shown)?.dataset.seen ?? "" };
  for (const e of all("[data-answer]", shown)) answers[e.dataset.answer] = e.type === "checkbox" ? e.checked : e.value;
  for (const e of all("[data-drop]", shown)) answers.drops[e.dataset.drop] = e.value.trim();
  return new Blob([JSON.stringify(answers), "\n", file]);
};

const ids = d => all("select, input", d).map(e => e.id).join();
const fresh = html => new DOMParser().parseFromString(html, "text/html").body;

/** Puts an answer in. Columns and answers that are the same ones stay where they are: somebody may have one of them open. */
const put = html => {
  const next = fresh(html).firstElementChild, own = $("section", shown), focus = document.activeElement?.id;
  if (!own || !next.dataset.seen) { shown.replaceChildren(next); return; }
  const open = new Map(all("details[id]", own).map(d => [d.id, d.open])), stays = new Map();
  for (const d of own.querySelectorAll(":scope > details")) {
    const now = next.querySelector(":scope > #" + d.id);
    if (now && ids(d) && ids(d) === ids(now)) stays.set(now, d);
  }
  const kept = new Set(stays.values());
  for (const e of [...own.childNodes]) if (!kept.has(e)) e.remove();
  own.dataset.seen = next.dataset.seen;
  let at = null;
  for (const e of [...next.childNodes]) {
    const d = stays.get(e);
    if (!d) { own.insertBefore(e, at ? at.nextSibling : own.firstChild); at = e; if (open.has(e.id)) e.open ||= open.get(e.id); continue; }
    $("summary", d).innerHTML = $("summary", e).innerHTML;
    d.open ||= e.open;
    for (const field of all("select, input", e)) {
      const mine = document.getElementById(field.id);
      if (mine !== document.activeElement && mine.type !== "checkbox") mine.value = field.value;
      if (mine.tagName === "SELECT" && mine.options[0].text !== field.options[0].text) mine.options[0].text = field.options[0].text;
      mine.className = field.className;
    }
    at = d;
  }
  if (focus && document.activeElement?.id !== focus) document.getElementById(focus)?.focus();
};
const calm = text => { say.textContent = text; shown.setAttribute("aria-busy", String(!!text)); };

async function look() {
  if (busy) { again = true; return; }
  busy = true;
  const mine = file;
  tell(""); calm("Reading " + file.name + " …");
  try {
    const answer = await send("/bring-and-take/look", asked()), text = await answer.text();
    if (mine === file && !again) { if (answer.ok) put(text); else { tell(text); if (!$("[data-head]", shown)) shown.replaceChildren(); } }
  } catch { if (mine === file) tell(silent); }
  busy = false;
  if (again) { again = false; if (file) { look(); return; } }
  calm("");
}

async function keep(button) {
  if (busy) return;
  busy = true; button.disabled = true;
  tell(""); calm("Keeping …");
  try {
    const answer = await send("/bring-and-take/keep", asked()), text = await answer.text();
    if (!answer.ok) tell(text);
    else {
      put(text);
      $("#h-brought").focus();
      if (!$("[data-seen]", shown)) { forget(); count(); }
    }
  } catch { tell(silent); }
  busy = false; button.disabled = false;
  calm("");
}

const forget = () => { file = null; box.value = ""; columns.clear(); };

box.addEventListener("change", () => {
  if (!box.files[0]) return;
  columns.clear(); shown.replaceChildren(); tell("");
  file = box.files[0];
  if (file.size > +box.dataset.most) {
    tell(`${file.name} is larger than ${Math.round(+box.dataset.most / 1048576)} MB. A larger pack is taken in with the command unpack. Nothing was kept.`);
    forget();
  } else look();
});
shown.addEventListener("change", e => {
  const select = e.target.closest("[data-head]");
  if (select) {
    columns.set(select.dataset.head, select.value);
    // One column of a sheet holds a thing: whichever held it before is not used now.
    for (const other of all("[data-head]", select.closest(".columns"))) if (other !== select && select.value !== "-" && other.value === select.value) { other.value = "-"; columns.set(other.dataset.head, "-"); }
  }
  if (select || e.target.closest("[data-answer]:not([data-answer=theirs]), [data-drop]")) look();
});
shown.addEventListener("click", e => {
  const button = e.target.closest("button");
  if (button?.matches("[data-keep]")) keep(button);
  if (button?.matches("[data-leave]")) { shown.replaceChildren(); forget(); box.focus(); }
});

/** How much a pack of the whole book would be, and what would be left out of it. */
const count = async () => { try { const answer = await fetch("/bring-and-take/would"); if (answer.ok) $("#would").innerHTML = await answer.text(); } catch { /* it is only told */ } };
count();
