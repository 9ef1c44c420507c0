// Theme, print, the filter of the recipes, and figures that follow while somebody types. Every figure comes from the server.
const $ = (s, e = document) => e.querySelector(s), all = (s, e = document) => [...e.querySelectorAll(s)];
const root = document.documentElement;

// theme: the system's, unless switched
const kept = localStorage.getItem("theme");
if (kept) root.dataset.theme = kept;
const dark = () => root.dataset.theme ? root.dataset.theme === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
for (const b of all("[data-theme-switch]")) {
  const say = () => { b.textContent = dark() ? "Light" : "Dark"; };
  b.onclick = () => { root.dataset.theme = dark() ? "light" : "dark"; localStorage.setItem("theme", root.dataset.theme); say(); };
  say();
}
for (const b of all("[data-print]")) b.onclick = () => print();

// recipes: filter and order what is there; a colour to come near to is asked of the server
const seek = $("[data-seek]");
if (seek) {
  const list = $(".drawer"), items = [...list.children], more = $("details", seek);
  if (more) more.open = !matchMedia("(max-width: 78rem)").matches;
  const by = {
    "name": (a, b) => a.dataset.name.localeCompare(b.dataset.name),
    "how it came out": (a, b) => b.dataset.rate - a.dataset.rate,
    "light to dark": (a, b) => b.dataset.l - a.dataset.l,
    "last made": (a, b) => b.dataset.made.localeCompare(a.dataset.made),
    "nearest first": (a, b) => a.dataset.near - b.dataset.near,
  };
  let order = "";
  const show = () => {
    const words = $("#find").value.toLowerCase().split(/[\s,]+/).filter(Boolean), tags = all("[data-tag]:checked", seek).map(t => t.dataset.tag);
    let shown = 0;
    for (const li of items) {
      const own = li.dataset.words;
      li.hidden = !words.every(w => own.includes(w)) || !tags.every(t => own.split("|")[0].split(",").includes(t)) || ($("#canmake").checked && li.dataset.short === "1") || (li.dataset.away === "1" && !tags.includes("put-away"));
      if (!li.hidden) shown++;
    }
    const wanted = $("#sort").value;
    if (wanted !== order && by[wanted]) { list.append(...items.sort(by[wanted])); order = wanted; }
    $("#shown").textContent = shown;
    $("#none").hidden = shown > 0;
  };
  seek.addEventListener("input", e => { if (e.target.id === "pick") { $("#near").value = e.target.value; seek.requestSubmit(); } else if (e.target.id !== "near") show(); });
  show();
}

// live: what depends on a form follows while somebody types. One question at a time, the newest last; the field under the fingers is never touched.
const form = $("form[data-live]");
if (form) {
  let busy = false, again = false;
  const ask = async () => {
    if (busy) { again = true; return; }
    busy = true;
    const url = form.getAttribute("action") + "?" + new URLSearchParams(new FormData(form));
    try {
      const answer = await fetch(url, { headers: { "Accept": "text/html" } });
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      if (!again) {
        const refused = !!$("#part-problem > *", page);
        $("main").classList.toggle("stale", refused);
        for (const part of all("[data-part]")) {
          const now = page.getElementById(part.id);
          if (!now || (refused && part.id !== "part-problem")) continue;
          if (part.innerHTML !== now.innerHTML) part.innerHTML = now.innerHTML;
        }
        if (!refused) {
          for (const field of all("input[data-lead]", form)) {
            const now = page.getElementById(field.id);
            if (!now) continue;
            field.parentElement.classList.toggle("lead", now.parentElement.classList.contains("lead"));
            if (field !== document.activeElement) field.value = now.value;
          }
          history.replaceState(null, "", url);
        }
      }
    } catch {
      const p = $("#part-problem");
      p.textContent = "The book does not answer. Start it again; what you typed stays here.";
    }
    busy = false;
    if (again) { again = false; ask(); }
  };
  form.addEventListener("input", e => {
    const leads = e.target.dataset.lead;
    if (leads) $("[name=lead]", form).value = leads;
    ask();
  });
  form.addEventListener("submit", e => { e.preventDefault(); ask(); });
}

// molds: the slice read-out follows the height
const cut = $("#cut");
if (cut) {
  const slices = JSON.parse($("#slices").textContent);
  const tell = () => {
    const s = slices[+cut.value];
    $("#m-h").textContent = s.mm; $("#m-below").textContent = s.room; $("#m-area").textContent = s.area;
  };
  cut.addEventListener("input", tell);
  tell();
}

// recipe: a changed formula is kept as a new revision; where it can't be, what was typed stays and the reason is told
const formula = $("form[data-revision]");
if (formula) formula.addEventListener("submit", async e => {
  e.preventDefault();
  const told = $("#not-saved"), button = $("button[type=submit]", formula);
  told.hidden = true; button.disabled = true;
  try {
    const answer = await fetch(formula.dataset.revision, { method: "POST", headers: { "X-Book-Token": formula.dataset.token }, body: new URLSearchParams(new FormData(formula)) });
    if (answer.ok) { location.reload(); return; }
    told.textContent = await answer.text();
  } catch {
    told.textContent = "The book does not answer, so nothing was saved. Start it again; what you typed stays here.";
  }
  told.hidden = false; button.disabled = false;
});

// new, copy, put away: done by the server, which answers with where to go next
for (const act of all("form[data-act]")) act.addEventListener("submit", async e => {
  e.preventDefault();
  const told = $("[role=alert]", act);
  told.hidden = true;
  try {
    const answer = await fetch(act.dataset.act, { method: "POST", headers: { "X-Book-Token": act.dataset.token }, body: new URLSearchParams(new FormData(act)) });
    const text = await answer.text();
    if (answer.ok) { location.href = text; return; }
    told.textContent = text;
  } catch {
    told.textContent = "The book does not answer, so nothing was changed. Start it again.";
  }
  told.hidden = false;
});
