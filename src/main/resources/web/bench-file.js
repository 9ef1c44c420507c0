// A bench in a file: entries are kept on this phone, and handed back as a file that the book reads like a filled-in sheet.
const root = document.querySelector("#bench"), plan = JSON.parse(document.querySelector("#plan").textContent), begun = JSON.parse(document.querySelector("#back").textContent);
const key = "bench-file-" + begun.mix_id;
let log = [], lost = "";
try { log = JSON.parse(localStorage.getItem(key)) || []; } catch { lost = "This phone keeps nothing for a file: hand back before you close it."; }
const wall = Date.now(), own = performance.now();
// The phone's clock is taken once; setting it while one weighs changes nothing. After a sleep the later of the two is right.
const now = () => Math.max(wall + performance.now() - own, Math.abs(Date.now() - wall) < 12 * 3600000 ? Date.now() : 0);
const random = () => [...crypto.getRandomValues(new Uint8Array(8))].map(b => b.toString(16).padStart(2, "0")).join("");
const by = () => { try { return localStorage.getItem("bench-by") || given; } catch { return given; } };
let given = "";

function entries() {
  const state = stateOf(plan, log), cells = { ...begun.entries }, notes = [], weighings = [];
  const written = g => String(+g.toFixed(4)), cellOf = (cup, i) => plan.layers[cup.layer - 1].cups[cup.cup - 1].items.find(p => p.item === i.item).cell;
  // A row of a sheet has one lot: what it can't say stands beside, lot by lot.
  const beside = (cup, i, more) => { for (const lot of i.lots) weighings.push({ cell: cellOf(cup, i), lot, grams: written(i.byLot[lot]), ...more }); };
  const first = log.find(e => e.what === "weigh");
  if (first) { const d = new Date(first.at); cells.started = new Date(d - d.getTimezoneOffset() * 60000).toISOString().slice(0, 16); }
  for (const cup of state.cups) {
    let who = "";
    for (const i of cup.items) {
      const cell = cellOf(cup, i);
      // An empty entry says that nothing was weighed yet; a missing one would say that the row was lost.
      cells["actual_g_" + cell] = ""; cells["lot_" + cell] = i.lot;
      if (i.sum > 0) { cells["actual_g_" + cell] = written(i.sum); cells["lot_" + cell] = i.lots.join(" + "); who = i.last?.by || who; }
      if (i.lots.length > 1) beside(cup, i);
    }
    if (who) cells[`by_${cup.layer}_${cup.cup}`] = who;
    if (cup.checked && cup.checked !== "nobody") cells.checked_by = cup.checked;
  }
  for (const cup of state.thrown) for (const i of cup.items) beside(cup, i, { thrown: true });
  const undone = new Set(log.filter(e => e.what === "undo").map(e => e.of));
  for (const e of log) if (!undone.has(e.id)) {
    if (e.what === "note") notes.push(`${e.item}: ${e.text}`);
    if (e.what === "throw") notes.push(`a cup of layer ${e.layer} was thrown away`);
    if (e.what === "follow") notes.push(`in layer ${e.layer}, cup ${e.cup} the other targets followed what was over`);
  }
  if (notes.length) cells.deviation = notes.join("; ");
  return { ...begun, entries: cells, ...(weighings.length ? { weighings } : {}) };
}

const handBack = () => {
  const button = document.createElement("button");
  button.type = "button"; button.className = "act"; button.textContent = "Hand back what was weighed";
  button.onclick = () => {
    const a = document.createElement("a");
    a.href = URL.createObjectURL(new Blob([JSON.stringify(entries(), null, 2)], { type: "application/json" }));
    a.download = begun.mix_id + ".json"; a.click();
  };
  return button;
};

const ui = bench(root, {
  plan, back: null, now, log: () => log, held: () => 0, told: () => lost ? { text: lost, choices: [] } : null, by,
  setBy: name => { given = name; try { localStorage.setItem("bench-by", name); } catch { /* kept for as long as this is open */ } },
  enter: entry => { log.push({ id: random(), at: new Date(now()).toISOString(), ...entry }); try { localStorage.setItem(key, JSON.stringify(log)); } catch { lost = "This phone keeps nothing for a file: hand back before you close it."; } },
  end: handBack, always: handBack,
});
