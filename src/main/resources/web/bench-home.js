// Where the bench keeps its entries: at once on this phone, then in the book, in order and once each, however often it takes.
import { $, send } from "./page.js";
import { bench } from "./bench.js";

const root = $("#bench"), pour = root.dataset.pour, plan = JSON.parse($("#plan").textContent), key = "bench-" + pour;
let log = JSON.parse($("#log").textContent), told = null, busy = false;
const random = () => [...crypto.getRandomValues(new Uint8Array(8))].map(b => b.toString(16).padStart(2, "0")).join("");
const device = localStorage.getItem("bench-device") || random();
localStorage.setItem("bench-device", device);
// Two windows of one phone are two devices: what one has seen the other has not.
const window_ = sessionStorage.getItem("bench-window") || random();
sessionStorage.setItem("bench-window", window_);
const me = device.slice(0, 8) + "-" + window_.slice(0, 8), mine = key + "-" + window_;
// What another window of this phone held and could not hand in any more is handed in by this one: each entry has an id, so once.
let queue = [];
// A window's name is all that follows: the key of another pour may begin with this one's.
for (const k of Object.keys(localStorage).filter(k => k.startsWith(key + "-") && /^[0-9a-f]{16}$/.test(k.slice(key.length + 1)))) {
  try { queue.push(...JSON.parse(localStorage.getItem(k))); } catch { /* nothing that was ever an entry */ }
  if (k !== mine) localStorage.removeItem(k);
}
queue = queue.filter((e, i) => !log.some(k => k.id === e.id) && queue.findIndex(q => q.id === e.id) === i).sort((a, b) => a.made - b.made);
let base = log.length, taking = 0;

// The book's clock, carried on by this page's own: a phone whose clock is wrong, or is set meanwhile, changes nothing.
let bookNow = Number(root.dataset.now), here = performance.now(), wall = Date.now();
const now = () => {
  const own = performance.now() - here, byWall = Date.now() - wall;
  // A page that slept may have a clock that stood still; one that was set runs apart from it by more.
  return bookNow + (document.hidden || byWall - own < 1500 || byWall < own ? own : Math.max(own, byWall));
};
const at = ms => new Date(ms).toISOString();

const keep = () => { try { localStorage.setItem(mine, JSON.stringify(queue)); } catch { /* a phone that is full: what is held is handed in from here all the same */ } };
const taken = answer => { taking++; log = answer.log; bookNow = answer.now; here = performance.now(); wall = Date.now(); base = log.length; queue = queue.filter(e => !log.some(k => k.id === e.id)); keep(); };

async function hand() {
  if (busy || told) return;
  busy = true;
  try {
    while (queue.length) {
      const first = queue[0], { made, ...entry } = first;
      const answer = await send(`/pours/${pour}/log${location.search}`, JSON.stringify({ device: me, base, ago: Math.max(0, Math.round(now() - made)), entries: [entry] }));
      if (answer.ok) { taken(await answer.json()); ui.draw(); continue; }
      if (answer.status >= 500) break;
      const text = await answer.text(), other = answer.status === 409;
      told = {
        text, choices: other
          ? [{ word: "Enter mine on top", act: async () => { await look(true); told = null; ui.draw(true); hand(); } }, { word: "Drop mine", act: async () => { queue.shift(); keep(); await look(true); told = null; ui.draw(true); hand(); } }]
          : [{ word: "Take mine back", act: () => { queue.shift(); keep(); told = null; ui.draw(true); hand(); } }],
      };
      break;
    }
  } catch { /* the book does not answer: what was entered is held here and handed in later */ }
  busy = false;
  ui.draw();
}

async function look(force) {
  const since = taking;
  try {
    const answer = await fetch(`/pours/${pour}/log${location.search}`);
    if (answer.ok) {
      const said = await answer.json();
      // What another phone entered is only taken in here while nothing of this one waits: else it is told first.
      // An answer that was under way while something was handed in does not know of it yet.
      if (force || (!queue.length && since === taking)) { taken(said); ui.draw(); }
    }
  } catch { /* shown by what is held */ }
}

const home = {
  plan, back: root.dataset.back || null, now,
  log: () => [...log, ...queue.map(e => ({ ...e, at: e.at || at(e.made) }))],
  held: () => queue.length, told: () => told,
  by: () => localStorage.getItem("bench-by") || "", setBy: name => localStorage.setItem("bench-by", name),
  enter: entry => { queue.push({ id: random(), made: now(), ...entry }); keep(); hand(); },
  over: async cup => { try { const a = await fetch(`/pours/${pour}/over?layer=${cup.layer}&cup=${cup.cup}${location.search.replace("?", "&")}`); return a.ok ? await a.json() : []; } catch { return []; } },
  end: () => { const a = document.createElement("a"); a.href = `/pours/${pour}`; a.className = "act"; a.textContent = "How did it come out?"; return root.dataset.shared === "true" ? null : a; },
};
const ui = bench(root, home);
hand();
setInterval(() => { if (queue.length) hand(); }, 2000);
setInterval(() => { if (!document.hidden) look(false); }, 5000);
// A clock that was set, or a sleep: the book says which. Until it answers the later time counts, for less time left is the safer error.
setInterval(() => { if (Math.abs(Date.now() - wall - (performance.now() - here)) > 1500) look(false); }, 1000);
addEventListener("online", hand);
document.addEventListener("visibilitychange", () => { if (!document.hidden) look(false); });
