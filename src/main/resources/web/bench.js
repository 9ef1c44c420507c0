// The bench: one thing at a time, from a plan and a log of entries. Everything shown is worked out anew from the two, so that a
// reload, a dead battery or another phone find the same state. Needs nothing but a home that keeps the log.

const grams = text => parseFloat(text);
const EPS = 1e-9;

const strong = of => of?.strength ? parseFloat(of.strength) / 100 : 1;
/** How strong a lot is beside the reference lot; one that nobody knows counts as that. */
const strengthOf = (plan, item, lot) => strong((plan.lots?.[item] || []).find(l => l.lot === lot));

/** Sets an item's targets in grams as they are weighed when what is still short of them comes from a lot: a weaker lot takes more. */
function inLot(plan, item, lot) {
  const grams = asPlanned => item.sum + (asPlanned - item.asPlanned) * item.strength / strengthOf(plan, item.item, lot);
  return Object.assign(item, { grams, target: grams(item.planned * item.factor), low: grams(item.low0 * item.factor), high: grams(item.high0 * item.factor) });
}

/** Works the state out: each cup with what is in it, and the cup, item and step that come next. */
export function stateOf(plan, log) {
  const undone = new Set(log.filter(e => e.what === "undo").map(e => e.of));
  const entries = log.filter(e => e.what !== "undo" && !undone.has(e.id));
  const empty = (layer, cup) => ({
    layer, cup, factor: 1, checked: "", poured: "", partB: "",
    items: plan.layers[layer - 1].cups[cup - 1].items.map(i => ({
      item: i.item, name: i.name, lot: i.lot, step: grams(i.step), planned: grams(i.target), low0: grams(i.low), high0: grams(i.high), strength: strong(i), coarse: i.coarse || "", sum: 0, asPlanned: 0, lots: [], byLot: {}, noted: false,
    })),
  });
  const cups = plan.layers.flatMap((l, i) => l.cups.map((c, j) => empty(i + 1, j + 1))), thrown = [];
  for (const e of entries) {
    const at = cups.findIndex(c => c.layer === e.layer && c.cup === e.cup), cup = cups[at];
    if (!cup) continue;
    const item = cup.items.find(i => i.item === e.item);
    if (e.what === "weigh" && item) {
      item.sum += grams(e.grams); item.noted = false; item.last = e;
      item.asPlanned += grams(e.grams) * strengthOf(plan, e.item, e.lot) / item.strength;
      if (!item.lots.includes(e.lot)) item.lots.push(e.lot);
      item.byLot[e.lot] = (item.byLot[e.lot] || 0) + grams(e.grams);
      if (e.item === "part B") cup.partB ||= e.at; else cup.checked = "";
    }
    if (e.what === "follow") cup.factor = Math.max(cup.factor, ...cup.items.map(i => i.planned > 0 ? i.asPlanned / i.planned : 0));
    if (e.what === "note" && item) item.noted = true;
    if (e.what === "check") cup.checked = e.by || "nobody";
    if (e.what === "poured") cup.poured = e.at;
    if (e.what === "throw") { thrown.push(cup); cups[at] = empty(e.layer, e.cup); }
  }
  for (const cup of cups) for (const i of cup.items) {
    i.factor = cup.factor; inLot(plan, i, i.lots.at(-1) ?? i.lot);
    i.decimals = decimals(i.step);
    i.over = !i.noted && i.sum > i.high + EPS;
    i.settled = i.noted || i.sum >= i.low - EPS;
  }
  const cup = cups.find(c => !c.poured), last = entries.at(-1);
  const state = { cups, thrown, cup, last, done: entries.some(e => e.what === "done"), step: "end", item: null };
  if (!cup) return state;
  const before = cups[cups.indexOf(cup) - 1];
  state.layerBegan = cups.find(c => c.layer === cup.layer && c.partB)?.partB || "";
  state.before = before;
  state.item = cup.items.find(i => i.over) || cup.items.find(i => !i.settled) || null;
  const begun = cup.items.some(i => i.sum > 0);
  if (before && before.layer !== cup.layer && !begun && !entries.some(e => e.what === "check" && e.layer === cup.layer && e.cup === 0)) state.between = true;
  if (!state.item) state.step = "clock";
  else if (state.item.over) state.step = "over";
  else if (state.item.item === "part B" && state.item.sum === 0 && !cup.checked && plan.secondPerson !== false) state.step = "check";
  else state.step = "weigh";
  return state;
}

function decimals(step) { let d = 0; while (d < 4 && Math.abs(step * 10 ** d - Math.round(step * 10 ** d)) > 1e-9) d++; return d; }

/** What the scale shows when an item is right: parts on the big scale with all that is in the cup, pigments by themselves. */
export function display(plan, cup, item) {
  const rest = Math.max(0, item.target - item.sum);
  if (!isPart(item)) return { shows: rest, before: 0 };
  const before = (plan.cupTare ? grams(plan.cupTare) : 0) + cup.items.reduce((sum, i) => sum + i.sum, 0);
  return { shows: before + rest, before };
}

const isPart = item => item.item === "part A" || item.item === "part B";
const wordsOf = text => text.toLowerCase().split(/[^\p{L}]+/u).filter(w => w.length > 2).map(w => w.replace(/s$/, ""));
const afterPartB = step => /^after\b|\bpour|\bcure/i.test(step.when);

/** The recipe's steps that belong to an item: it is named in when, or it is what the step's text is done to ("Wet the mica out in …"). */
export function stepsAt(plan, item) {
  if (item.item === "part B") return [];
  const named = [item.item, item.name.toLowerCase()], name = wordsOf(item.name);
  return (plan.steps || []).filter(step => named.some(n => step.when.toLowerCase().includes(n))
    || (!isPart(item) && !afterPartB(step) && wordsOf(step.text.split(/\b(?:in|into|with|to|from|off)\b/i)[0]).some(w => name.includes(w))));
}

/** All that is to be done before part B, in the recipe's order; or, once it is in, what is left. */
export const stepsBefore = plan => (plan.steps || []).filter(step => !afterPartB(step));
const stepsAfter = plan => (plan.steps || []).filter(afterPartB);

/** What is net where the last entry of a part was the whole display and its net is within low and high; else null. */
export function netOfWhole(plan, cup, item) {
  if (!item.last || !isPart(item)) return null;
  const entry = grams(item.last.grams), before = (plan.cupTare ? grams(plan.cupTare) : 0) + cup.items.reduce((sum, i) => sum + i.sum, 0) - entry, net = +(entry - before).toFixed(4), sum = item.sum - entry + net;
  return before > 0 && net > 0 && sum >= item.low - EPS && sum <= item.high + EPS ? net : null;
}

/** Which limit a cup breaks where everything in it grows by f, in words; empty where it breaks none. A tenth of a layer left over is common practice, no source. */
export function limitBroken(plan, cups, cup, f) {
  const planned = of => of.reduce((t, i) => t + i.planned, 0), total = planned(cup.items) * f, resin = planned(cup.items.filter(isPart)) * f;
  if (plan.cupMost && total > grams(plan.cupMost) + EPS) return `That is more than the cup's ${plan.cupMost}: only in a bigger cup.`;
  if (plan.batchMost && resin > grams(plan.batchMost) + EPS) return `That is more resin in one cup than the ${plan.batchMost} it may be: it can run hot.`;
  const layer = cups.filter(c => c.layer === cup.layer), left = planned(cup.items) * (f - Math.max(1, cup.factor)), takes = layer.reduce((t, c) => t + planned(c.items), 0);
  return plan.room && left > takes / 10 ? `The layer takes no more: ${fixed(left, 0)} g will be left over.` : "";
}

/** Reads what was typed: a dot or a comma as decimal mark; NaN where it is no number or can be read two ways. */
export function typed(text) {
  const t = text.trim().replace(/\s*g$/, "");
  if (/^\d+,\d{3}$/.test(t)) return NaN;
  return /^\d*[.,]?\d+$|^\d+[.,]?$/.test(t) ? parseFloat(t.replace(",", ".")) : NaN;
}

const SVG = "http://www.w3.org/2000/svg";
function make(tag, attributes = {}, ...inside) {
  const e = /^(svg|rect|path|text)$/.test(tag) ? document.createElementNS(SVG, tag) : document.createElement(tag);
  for (const [k, v] of Object.entries(attributes)) {
    if (k.startsWith("on")) e.addEventListener(k.slice(2), v); else if (v === true) e.setAttribute(k, ""); else if (v !== false && v != null) e.setAttribute(k, v);
  }
  e.append(...inside.flat().filter(x => x != null && x !== false && x !== ""));
  return e;
}
const fixed = (x, d) => (Math.round(x * 10 ** d + 1e-9) / 10 ** d).toFixed(d);
const clock = ms => new Date(ms).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
const day = ms => new Date(ms).toLocaleDateString([], { year: "numeric", month: "2-digit", day: "2-digit" });
const isoDay = ms => { const d = new Date(ms); return new Date(d - d.getTimezoneOffset() * 60000).toISOString().slice(0, 10); };
/** A moment as a clock on the wall shows it: with its day where that is not today's, with its zone where the clock shows it twice. */
export function when(ms, now) {
  const near = Math.abs(ms - now) < 6 * 24 * 3600000, twice = [-3600000, 3600000].some(d => clock(ms + d) === clock(ms));
  return (day(ms) === day(now) ? "" : new Date(ms).toLocaleDateString([], near ? { weekday: "short" } : { weekday: "short", day: "numeric", month: "short" }) + " ")
    + (twice ? new Date(ms).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", timeZoneName: "short" }) : clock(ms));
}
const hours = ms => { const m = Math.ceil(ms / 60000); return `${Math.floor(m / 60)} h ${m % 60} min`; };
// Above an hour seconds say nothing.
const minutes = ms => { const s = Math.max(0, Math.floor(ms / 1000)); return s >= 3600 ? `${Math.floor(s / 3600)} h ${Math.floor(s / 60) % 60}` : `${Math.floor(s / 60)}:${String(s % 60).padStart(2, "0")}`; };

/** Runs the bench in an element. The home keeps the log: { plan, log(), held(), told(), now(), enter(entry), by(), setBy(name), over(cup), end }. */
export function bench(root, home) {
  const plan = home.plan;
  let form = { whole: false, text: "", lot: null, mode: "" }, alarmed = new Set(), audio = null, drawn = "", amount = null;
  const part = { min: t => t ? grams(t) * 60000 : null, h: t => t ? grams(t) * 3600000 : null };

  const enter = entry => {
    const s = state();
    home.enter({ layer: s.cup?.layer, cup: s.cup?.cup, by: home.by(), ...entry });
    form = { whole: form.whole, text: "", lot: null, mode: "" };
    draw(true);
    toAmount();
  };
  // Where there is no mouse the phone's own keyboard would cover the figures.
  const toAmount = () => { if (amount && home.by() && matchMedia("(pointer: fine)").matches) amount.input.focus(); };
  const state = () => stateOf(plan, home.log());

  const acts = (s, ...more) => make("div", { class: "acts" }, ...more,
    s.last && s.last.what !== "done" ? make("button", { type: "button", class: "plain", onclick: () => enter({ what: "undo", of: s.last.id }) }, "Undo " + words(s.last)) : make("span"));
  const words = e => e.what === "weigh" ? `${name(e.item)}, ${fixed(grams(e.grams), Math.max(decimals(grams(planned(e.item).step)), (/\.(\d+)/.exec(e.grams)?.[1] || "").length))} g` : { follow: "the new targets", note: "the deviation", check: "the check", poured: "cup poured", throw: "the thrown cup" }[e.what] || "the last entry";
  const planned = item => plan.layers.flatMap(l => l.cups).flatMap(c => c.items).find(i => i.item === item) || { name: item, step: "1 g" };
  const name = item => planned(item).name;

  const head = s => {
    const lots = s.cup ? `Layer ${s.cup.layer} of ${plan.layers.length}, cup ${s.cup.cup} of ${plan.layers[s.cup.layer - 1].cups.length}` : "All cups";
    const running = s.layerBegan && s.step !== "clock" ? make("b", { class: "running", "data-left": true }) : null;
    return [make("header", { class: "bench-head" }, home.back ? make("a", { href: home.back }, plan.name + ", " + plan.formula) : make("b", {}, plan.name + ", " + plan.formula), make("span", { class: "small soft" }, lots, running ? ". " : "", running)), s.cup ? dots(s) : null];
  };
  const dots = s => {
    const n = s.cup.items.length, w = 396 / n;
    return make("svg", { class: "dots", viewBox: "0 0 396 24", preserveAspectRatio: "none", role: "img", "aria-label": `${s.cup.items.filter(i => i.settled).length} of ${n} items are in` },
      ...s.cup.items.map((i, k) => make("rect", { x: k * w + 1, y: 8, width: w - 6, height: 8, class: i === s.item ? "this" : i.settled ? "solid" : "open" })));
  };
  const order = s => !s.cup ? null : make("aside", { class: "order", "aria-label": "All items of this cup" }, make("h2", {}, `Cup ${s.cup.cup}, layer ${s.cup.layer}`), make("div", { class: "scroll" }, items(s, "In the order of work")));
  const items = (s, caption, only = () => true) => make("table", { class: "sheet" }, make("caption", {}, caption),
    make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "Item"), make("th", { scope: "col" }, "Lot"), make("th", { scope: "col", class: "n" }, "Target, g"), make("th", { scope: "col", class: "n" }, "As weighed, g"))),
    make("tbody", {}, ...s.cup.items.filter(only).map(i => make("tr", {}, make("th", { scope: "row" }, i === s.item ? make("b", {}, i.name) : i.name), make("td", {}, i.lots.join(" + ") || i.lot), make("td", { class: "n" }, fixed(i.target, i.decimals)),
      make("td", { class: "n big" }, i.sum ? fixed(i.sum, i.decimals) : i === s.item ? (s.step === "check" ? "to come" : "now") : "", i.noted ? " *" : "")))));

  const gauge = (item, value) => {
    const span = Math.max(item.high - item.low, item.step), from = item.low - span * .55, x = v => 10 + 376 * Math.min(1, Math.max(0, (v - from) / (span * 2.1)));
    const low = x(item.low), high = x(item.high), at = x(value);
    return make("svg", { class: "gauge", viewBox: "0 0 396 74", role: "img", "aria-label": `Low ${fixed(item.low, item.decimals)}, high ${fixed(item.high, item.decimals)} grams` },
      make("rect", { class: "bare", x: low, y: 24, width: high - low, height: 16 }), make("path", { class: "d", d: "M10 40H386" }), make("path", { class: "o", "stroke-width": 3, d: `M${low} 14v32M${high} 14v32M${x(item.target)} 28v18` }),
      make("text", { x: low, y: 68, "text-anchor": "middle" }, fixed(item.low, item.decimals)), make("text", { x: high, y: 68, "text-anchor": "middle" }, fixed(item.high, item.decimals)),
      make("text", { x: low - 8, y: 18, "text-anchor": "end", class: "t-s" }, "low"), make("text", { x: high + 8, y: 18, class: "t-s" }, "high"),
      Number.isFinite(value) && value > 0 ? make("path", { class: "solid", d: `M${at - 11} 4h22l-11 20z` }) : null);
  };

  // A lot good when the pour was planned may be past its date when a later layer is weighed.
  const past = lot => lot?.expires ? lot.expires < isoDay(home.now()) : lot?.good === false;
  const findLot = (item, text) => {
    if (text === "unknown") return text;
    const t = text.trim().toLowerCase(), lots = plan.lots[item] || [];
    return (lots.find(l => l.lot.toLowerCase() === t) || (t && lots.find(l => (l.code || "").toLowerCase() === t)))?.lot || null;
  };

  const who = s => home.by() ? make("p", { class: "lot" }, make("span", {}, "Weighed by ", make("b", {}, home.by())), make("button", { type: "button", class: "plain", onclick: () => { form.who = ""; home.setBy(""); draw(true); root.querySelector("#who")?.focus(); } }, "Someone else")) : make("div", {}, make("label", { for: "who" }, "Who weighs?"), make("input", { id: "who", autocomplete: "name", value: form.who || "", oninput: e => { form.who = e.target.value; const told = root.querySelector(".told"); if (told && form.who.trim()) told.textContent = ""; } }));

  function weigh(s) {
    const lot = form.lot || s.item.lots.at(-1) || s.item.lot;
    const item = inLot(plan, s.item, findLot(s.item.item, lot) ?? s.item.lot), shows = display(plan, s.cup, item), rest = Math.max(0, item.target - item.sum), adding = item.sum > 0, part = isPart(item);
    const net = () => { const t = typed(form.text); return form.whole && part ? +(t - shows.before).toFixed(4) : t; };
    const next = s.cup.items.find(i => i !== item && !i.settled);
    const button = make("button", { type: "button", class: "next" }), told = make("p", { class: "told", role: "alert" }), mark = make("div");
    const asked = () => !part ? "Type what the scale shows" : form.whole ? "Type what the display shows" : "Type the net grams";
    const tell = () => {
      const g = net(), d = Math.max(item.decimals, Math.min(3, (form.text.split(/[.,]/)[1] || "").length)), sum = item.sum + g;
      const then = sum > item.high + EPS ? `, ${fixed(sum - item.target, d)} g too much` : sum < item.low - EPS ? `, ${fixed(item.target - sum, d)} g short` : next ? ", then " + next.name : "";
      button.textContent = g > 0 ? `Enter ${fixed(g, d)} g${then}` : asked();
      mark.replaceChildren(gauge(item, item.sum + (g > 0 ? g : 0)));
    };
    const take = () => {
      const g = net(), found = findLot(item.item, lot);
      if (!home.by() && !(form.who || "").trim()) { told.textContent = "Type who weighs first; the record says it."; root.querySelector("#who")?.focus(); return; }
      if (!(g > 0)) { told.textContent = !form.text ? asked() + "." : g <= 0 && form.whole && part ? `The display showed ${fixed(shows.before, item.decimals)} g before; more than that was expected, or choose Net of this item.` : `"${form.text}" is no weight here: grams with a dot or a comma were expected.`; return; }
      if (!found) { told.textContent = `There is no lot "${lot}" of ${item.name} on the shelf. Type what stands on its label, or type unknown.`; return; }
      if (!home.by()) home.setBy(form.who.trim());
      enter({ what: "weigh", item: item.item, grams: `${+g.toFixed(4)} g`, lot: found });
    };
    button.onclick = take;
    const input = make("input", { id: "g", inputmode: "decimal", autocomplete: "off", value: form.text, enterkeyhint: "done", oninput: e => { form.text = e.target.value; told.textContent = ""; tell(); } });
    const put = k => { form.text = k === "⌫" ? form.text.slice(0, -1) : form.text + k; input.value = form.text; told.textContent = ""; tell(); };
    amount = { input, put, take };
    const key = k => make("button", { type: "button", "aria-label": k === "⌫" ? "take the last figure back" : k === "." ? "decimal mark" : null, onmousedown: e => { e.preventDefault(); if (document.activeElement?.matches("input:not(#g)")) document.activeElement.blur(); }, onclick: () => put(k) }, k);
    const choose = label => { form.lot = label; form.mode = ""; draw(true); };
    const onShelf = (plan.lots[item.item] || []).map(l => make("button", { type: "button", class: "choice", "data-lot": l.lot, onclick: () => choose(l.lot) }, make("b", {}, l.lot), make("small", { class: "soft" }, ` ${l.code ? l.code + ", " : ""}${l.left} left${l.strength ? `, ${l.strength} strong` : ""}${past(l) ? ", past its date" : ""}`)));
    tell();
    const lotLine = form.mode === "lot"
      ? make("div", {}, make("label", { for: "lot" }, `Lot of ${item.name}: press it, or type or scan its label; if nobody knows it, type unknown`), make("div", { class: "lots" }, ...onShelf), make("input", { id: "lot", autocomplete: "off", value: form.lot ?? "", oninput: e => { form.lot = e.target.value; }, onkeydown: e => { if (e.key === "Enter") choose(form.lot); } }), make("div", { class: "acts" }, make("button", { type: "button", onclick: () => choose(form.lot) }, "Take this lot"), make("button", { type: "button", class: "plain", onclick: () => choose(null) }, "Leave it")))
      : make("p", { class: "lot" }, make("span", {}, "Lot ", make("b", {}, lot), past((plan.lots[item.item] || []).find(l => l.lot === lot)) ? ", past its date" : "", part ? ", big scale" : ", fine scale"), make("button", { type: "button", class: "plain", onclick: () => { form.mode = "lot"; form.lot = ""; draw(true); root.querySelector("#lot")?.focus(); } }, "Change lot"));
    // What differs from item to item has one place of two lines, so that the figures stay where the hand knows them.
    const percent = side => fixed(Math.abs(side / item.target - 1) * 100, 0);
    const chosen = strengthOf(plan, item.item, findLot(item.item, lot));
    const notes = [
      Math.abs(chosen - item.strength) > EPS ? make("p", { role: "status" }, `Lot ${lot} is ${fixed(chosen * 100, 0)} % strong, the plan counted on ${fixed(item.strength * 100, 0)} %: the amount is worked out for it.`) : null,
      adding ? make("p", { role: "alert" }, make("b", {}, `${fixed(rest, item.decimals)} g short.`), ` ${fixed(item.sum, item.decimals)} g of ${item.name} is in; at least ${fixed(item.low, item.decimals)} g is wanted.`) : null,
      ...adding ? [] : stepsAt(plan, item).map(step => make("p", { class: "step" }, make("b", {}, step.text + "."))),
      item.coarse ? make("p", { class: "coarse" }, make("b", {}, "Beware. "), item.coarse.split(/[;:]/)[0] + `; low to high is −${percent(item.low)} to +${percent(item.high)} %.`) : null,
    ];
    return [
      make("div", {}, make("h1", {}, (adding ? "Add " : "") + item.name), lotLine),
      make("div", {}, make("p", { class: "target" }, fixed(rest, item.decimals), " ", make("small", {}, "g")), mark),
      part ? make("p", { class: "shows" }, make("span", { class: "soft" }, plan.cupTare ? `Display shows, with the cup on (${plan.cupTare})` : "Display shows, set to zero with the cup on"), " ", make("b", {}, fixed(shows.shows, item.decimals))) : make("p", { class: "shows" }, make("span", { class: "soft" }, "Display shows, set to zero with the boat on"), " ", make("b", {}, fixed(rest, item.decimals))),
      make("div", { class: "at-item" }, ...notes.filter(Boolean)),
      part ? make("fieldset", {}, make("legend", { class: "only-read" }, "What you type"), make("div", { class: "which" }, ...[[false, "Net of this item"], [true, "Whole display"]].map(([whole, text]) => make("label", {}, make("input", { type: "radio", name: "w", checked: form.whole === whole, onchange: () => { form.whole = whole; tell(); } }), text)))) : make("p", { class: "which-one soft" }, "Net, by itself in its boat"),
      make("div", { class: "entry" }, make("label", { class: "only-read", for: "g" }, "As weighed, grams"), input, make("b", { class: "soft" }, "g")),
      make("div", { class: "pad", role: "group", "aria-label": "Figures" }, ..."789456123".split("").map(key), key("."), key("0"), key("⌫")),
      button, told, who(s),
      adding ? deviation(item, "It stays below its range in this cup.") : null,
      acts(s, s.cup.items.some(i => i.sum > 0) ? make("button", { type: "button", class: "plain", onclick: () => { form.mode = form.mode === "throw" ? "" : "throw"; draw(true); } }, "Throw this cup away") : make("span")),
      form.mode === "throw" ? throwAway() : null,
    ];
  }

  const deviation = (item, what) => form.mode === "note"
    ? make("div", {}, make("label", { for: "why" }, `Why ${item.name} stays as it is`), make("input", { id: "why", autocomplete: "off" }), make("button", { type: "button", class: "next", onclick: () => { const text = root.querySelector("#why").value.trim(); if (text) enter({ what: "note", item: item.item, text }); else root.querySelector("#why").focus(); } }, "Keep it, with this deviation"))
    : make("button", { type: "button", class: "choice", onclick: () => { form.mode = "note"; draw(true); root.querySelector("#why")?.focus(); } }, make("b", {}, "Keep it, write a deviation"), make("span", {}, what));
  const throwAway = () => make("button", { type: "button", class: "choice", onclick: () => enter({ what: "throw" }) }, make("b", {}, "Yes, throw this cup away"), make("span", {}, "Its grams stay on record and leave the stock; the cup begins anew. Spread it thin in a tray, never into the bin while warm."));

  const choice = (main, word, why, act) => make("button", { type: "button", class: main ? "act next choice" : "choice", onclick: act }, make("b", {}, word), make("span", {}, why));

  function over(s) {
    const item = s.item, last = item.last, f = Math.max(s.cup.factor, ...s.cup.items.map(i => i.asPlanned / i.planned)), total = s.cup.items.reduce((t, i) => t + i.planned * f, 0);
    const adds = s.cup.items.filter(i => i.sum > 0 && i.grams(i.planned * f) - i.sum > i.step / 2), limit = limitBroken(plan, s.cups, s.cup, f);
    const net = netOfWhole(plan, s.cup, item), many = last && grams(last.grams) >= 3 * item.target - EPS;
    const main = net ? "whole" : many ? "wrong" : !limit ? "add" : isPart(item) ? "" : "boat";
    const undo = () => enter({ what: "undo", of: last.id });
    const offers = {
      whole: () => net && choice(main === "whole", `You typed the whole display; net is ${fixed(net, item.decimals)} g`, `Enter ${fixed(net, item.decimals)} g of ${item.name} instead.`, () => {
        home.enter({ layer: s.cup.layer, cup: s.cup.cup, by: home.by(), what: "undo", of: last.id });
        enter({ what: "weigh", item: item.item, grams: `${net} g`, lot: last.lot });
      }),
      wrong: () => last && choice(main === "wrong", "It was typed wrong", "Type the amount again.", undo),
      boat: () => last && !isPart(item) && choice(main === "boat", "It is still in the boat: take some off", "Then type what the scale shows.", undo),
      add: () => [choice(main === "add", adds.length ? "Add " + adds.map(i => `${fixed(i.grams(i.planned * f) - i.sum, i.decimals)} g of ${i.name}`).join(", ") + ", then go on" : "Let the rest follow, then go on", `Everything × ${f.toFixed(3)}; nothing is taken out. The cup will hold ${fixed(total, 0)} g${plan.cupMost ? ` of ${plan.cupMost}` : ""}. ${limit}`, () => enter({ what: "follow" })), following(s, f, main !== "add")],
      keep: () => deviation(item, `${item.name} stays ${fixed((item.sum / item.target - 1) * 100, 0)} % above plan in this cup only.`),
      thrown: () => choice(false, "Throw this cup away", "Its grams stay on record and leave the stock.", () => enter({ what: "throw" })),
    };
    const others = ["whole", "boat", "wrong", "keep", "add", "thrown"].filter(k => k !== main);
    return [
      make("div", { class: "caution stop", role: "alert" }, make("svg", { viewBox: "0 0 16 16", "aria-hidden": "true" }, make("path", { d: "M5 1h6l4 4v6l-4 4H5l-4-4V5z", fill: "currentColor" })), make("div", {}, make("b", {}, `${fixed(item.sum - item.target, item.decimals)} g too much ${item.name}.`), ` ${fixed(item.sum, item.decimals)} g is ${isPart(item) ? "in the cup" : "weighed"}.`)),
      make("h1", {}, { add: "Bring the rest up to it", boat: "Take some off", "": "Choose what to do" }[main] ?? "Was it typed wrong?"),
      ...main ? [offers[main](), make("h2", {}, "Or")].flat() : [],
      ...others.flatMap(k => offers[k]()),
    ];
  }

  /** What growing the cup means: what to beware of, and each new target; folded where it is not the first choice. */
  function following(s, f, folded) {
    const cautions = make("div", { id: "over-told" });
    home.over?.(s.cup).then(told => { for (const c of told || []) if (c.code !== "over-poured") cautions.append(make("div", { class: "caution " + c.severity }, make("span"), make("div", {}, make("b", {}, { stop: "Stop. ", warn: "Beware. ", note: "Note. " }[c.severity]), c.text, " ", make("span", { class: "basis" }, c.basis)))); });
    const table = make("div", { class: "scroll" }, make("table", { class: "sheet" }, make("caption", { class: "only-read" }, "New targets"), make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "Item"), make("th", { scope: "col", class: "n" }, "New target, g"), make("th", { scope: "col", class: "n" }, "Add, g"))),
      make("tbody", {}, ...s.cup.items.map(i => make("tr", {}, make("th", { scope: "row" }, i.name), make("td", { class: "n" }, fixed(i.grams(i.planned * f), i.decimals)), make("td", { class: "n" }, i.sum === 0 ? "in its turn" : i.grams(i.planned * f) - i.sum > i.step / 2 ? make("b", {}, "+" + fixed(i.grams(i.planned * f) - i.sum, i.decimals)) : "none"))))));
    return folded ? make("details", { class: "small" }, make("summary", {}, "What adding would mean"), cautions, table) : make("div", {}, cautions, table);
  }

  const toDo = steps => steps.length ? make("ol", { class: "to-do" }, ...steps.map(step => make("li", {}, (/^\s*(before part b)?\s*$/i.test(step.when) ? "" : step.when + ": ") + step.text))) : null;

  function ready(s) {
    return [make("h1", {}, "Before part B"), toDo(stepsBefore(plan)), make("button", { type: "button", class: "next", onclick: () => { form.ready = s.cup; draw(true); toAmount(); } }, "Done, weigh part B"), acts(s, make("span"))];
  }

  function check(s) {
    const told = make("p", { class: "told", role: "alert" }), input = make("input", { id: "second", autocomplete: "off" });
    const confirm = by => { if (by && by === home.by()) { told.textContent = "A second person checks, not the one who weighed. Or say that there is none."; return; } enter({ what: "check", by, text: by ? "" : "no second person" }); };
    const steps = stepsBefore(plan);
    return [make("h1", {}, "A second person checks"), steps.length ? make("h2", {}, "Done before part B") : null, toDo(steps), make("p", {}, `After part B nothing can be taken back. ${s.cup.items.length - 1} items are in${s.cup.items.some(i => i.noted) ? "; * has a deviation in words" : "; each lies within its low and high"}.`),
      make("div", { class: "scroll" }, items(s, "As weighed", i => i.item !== "part B")),
      make("div", {}, make("label", { for: "second" }, "Checked by"), input), told,
      make("button", { type: "button", class: "next", onclick: () => { const by = input.value.trim(); if (by) confirm(by); else { told.textContent = "Type who checked, or say that there is no second person."; input.focus(); } } }, "Checked, weigh part B"),
      acts(s, make("button", { type: "button", class: "plain", onclick: () => confirm("") }, "No second person"))];
  }

  const stepsOf = (s, began) => {
    const t = plan.times, cups = plan.layers[s.cup.layer - 1].cups.length, at = ms => began + ms, list = [["Stir", 0], ["Change into a clean cup, stir", part.min(t.secondStir)], ["Rest", part.min(t.rest)], ["Pour" + (s.cup.cup < cups ? `, then weigh cup ${s.cup.cup + 1}` : ""), part.min(t.pour)]];
    // Passes and the next layer count from the layer's first cup, as in the mix; the rest from this one.
    const layer = (Date.parse(s.layerBegan) || began) - began;
    for (const p of t.passes || []) list.push(["Surface pass, for bubbles", layer + part.min(p)]);
    if (s.cup.layer < plan.layers.length && t.nextLayerFrom) list.push([`Layer ${s.cup.layer + 1}`, layer + part.h(t.nextLayerFrom)]);
    return list.filter(x => x[1] != null).map(([what, ms]) => ({ what, at: at(ms) }));
  };

  function clockScreen(s) {
    const began = Date.parse(s.cup.partB), first = Date.parse(s.layerBegan) || began, pourBy = part.min(plan.times.pourBy);
    const steps = stepsOf(s, began), now = home.now(), current = [...steps].reverse().find(x => x.at <= now) || steps[0];
    return [make("div", {}, make("p", { class: "soft" }, `Part B went in at ${when(first, now)}. ${pourBy == null ? "No working time is stated; gone:" : "Left to pour:"}`), make("p", { class: "target", role: "timer", "data-left": true }), pourBy == null ? null : make("p", {}, "Pour by ", make("b", {}, when(first + pourBy, now)), " at the latest, a rule of thumb")),
      make("div", { class: "now" }, make("h1", { "data-now": true }, current.what), make("p", {}, "Leave the last film in the cup.")), toDo(stepsAfter(plan)),
      make("ol", { class: "steps" }, ...steps.map(x => make("li", {}, make("span", {}, x === current ? make("b", {}, x.what) : x.what), make("span", {}, when(x.at, now))))),
      make("button", { type: "button", class: "next", onclick: () => enter({ what: "poured" }) }, `Cup ${s.cup.cup} is poured`),
      acts(s, make("button", { type: "button", class: "alarm", onclick: () => { form.mode = form.mode === "hot" ? "" : "hot"; draw(true); } }, "Too hot, smoking")), form.mode === "hot" ? heat() : null];
  }
  const heat = () => { const c = plan.cautions.find(x => x.code === "standing-heat"); return make("div", { class: "caution stop", role: "alert" }, make("span"), make("div", {}, make("b", {}, "Stop. "), c ? c.text : "Take it outside, away from anything that burns.", " ", make("span", { class: "basis" }, c ? c.basis : "common practice"))); };

  function between(s) {
    const began = Date.parse(stateOf(plan, home.log()).cups.find(c => c.layer === s.cup.layer - 1 && c.partB)?.partB || ""), from = part.h(plan.times.nextLayerFrom), to = part.h(plan.times.nextLayerTo);
    return [make("h1", {}, `Layer ${s.cup.layer - 1} is poured`), from == null ? make("p", {}, "The data sheet states no time for the next layer: when it is tacky like masking tape.") : make("p", {}, `Layer ${s.cup.layer} may go on from `, make("b", {}, when(began + from, home.now())), to == null ? "" : [" until ", make("b", {}, when(began + to, home.now()))], ". Later it must be washed and sanded first."),
      home.now() < began + (from || 0) ? make("p", { class: "soft" }, `In ${hours(began + from - home.now())}. This page may be closed; the record is kept.`) : null,
      make("button", { type: "button", class: "next", onclick: () => { form.mode = "go"; form.go = s.cup.layer; draw(true); } }, `Begin layer ${s.cup.layer}`), acts(s, make("span"))];
  }

  function end(s) {
    const last = Math.max(...s.cups.map(c => Date.parse(c.poured))), { demold, fullCure } = plan.times, then = hours => when(last + part.h(hours), home.now());
    return [make("h1", {}, "All cups are poured"), make("p", {}, demold ? [`Demold not before `, make("b", {}, then(demold)), `, ${demold} after the last pour; full cure `, ...(fullCure ? [make("b", {}, then(fullCure)), ` (${fullCure}).`] : ["as the data sheet says."])] : "Demold and full cure as the data sheet says."),
      s.done ? make("p", {}, "This pour is ended.") : make("button", { type: "button", class: "next", onclick: () => { enter({ what: "done", layer: undefined, cup: undefined }); } }, "End this pour"),
      home.end ? home.end(s.done) : null, s.done ? null : acts(s, make("span"))];
  }

  function draw(force) {
    const s = state(), told = home.told();
    const key = JSON.stringify([home.log().map(e => e.id), told?.text, form.mode, form.lot]);
    if (!force && key === drawn) { tick(); return; }
    drawn = key; amount = null;
    const unready = s.step === "weigh" && s.item.item === "part B" && s.item.sum === 0 && plan.secondPerson === false && stepsBefore(plan).length && !(form.ready?.layer === s.cup.layer && form.ready.cup === s.cup.cup);
    const focus = document.activeElement?.id, body = unready ? ready(s) : s.between && form.go !== s.cup.layer ? between(s) : s.step === "end" ? end(s) : { weigh, over, check, clock: clockScreen }[s.step](s);
    const problem = told ? make("div", { class: "caution warn", role: "alert" }, make("span"), make("div", {}, make("b", {}, "Not kept. "), told.text, make("p", { class: "acts" }, ...told.choices.map(c => make("button", { type: "button", onclick: c.act }, c.word))))) : null;
    const holding = make("p", { class: "small soft", role: "status", id: "held" });
    const stop = plan.cautions.filter(c => c.severity === "stop" && !s.cup?.items.some(i => i.sum));
    root.replaceChildren(make("div", { class: "bench-wide" }, make("div", { class: "bench" }, ...head(s), problem, ...stop.map(c => make("div", { class: "caution stop" }, make("span"), make("div", {}, make("b", {}, "Stop. "), c.text, " ", make("span", { class: "basis" }, c.basis)))), ...body.filter(Boolean), holding,
      home.always?.(), make("p", { class: "small soft" }, "Gloves, goggles, moving air. The product’s SDS and TDS come first."),
      make("details", { class: "small" }, make("summary", {}, "What to beware of"), ...plan.cautions.filter(c => c.severity !== "stop").map(c => make("p", { class: "soft" }, c.text + " [" + c.basis + "]")))), order(s)));
    if (focus && ["g", "who", "second", "why", "lot"].includes(focus)) root.querySelector("#" + focus)?.focus();
    tick();
  }

  function beep() {
    try { audio ??= new AudioContext(); for (const at of [0, .35, .7]) { const o = audio.createOscillator(), v = audio.createGain(); o.frequency.value = 880; v.gain.value = .2; o.connect(v).connect(audio.destination); o.start(audio.currentTime + at); o.stop(audio.currentTime + at + .2); } } catch { /* a phone without sound shows it all the same */ }
  }

  // What an acknowledgement changes is told without drawing anew: a button must not vanish under a finger.
  function tick() {
    const s = state(), held = home.held(), status = root.querySelector("#held"), said = !held ? "" : held === 1 ? "1 entry is held on this phone until the book answers." : `${held} entries are held on this phone until the book answers.`;
    if (status && status.textContent !== said) status.textContent = said;
    if (!s.cup || !s.layerBegan) { document.title = "Bench: " + (s.cup ? (s.item?.name || "") : "all poured") + " · Pigment Book"; return; }
    const began = Date.parse(s.layerBegan), pourBy = part.min(plan.times.pourBy), left = pourBy == null ? home.now() - began : began + pourBy - home.now();
    const text = pourBy != null && left < 0 ? "0:00" : minutes(left);
    for (const e of root.querySelectorAll("[data-left]")) { e.textContent = text + " "; e.append(Object.assign(document.createElement("small"), { textContent: "min" })); e.classList.toggle("late", left < 0); }
    document.title = `${text}${text.includes("h") ? " min" : ""} ${pourBy == null ? "gone" : "left"} · Pigment Book`;
    const due = [[pourBy == null ? null : 300000, "five"], [0, "out"]].filter(x => pourBy != null && x[0] != null && left <= x[0]).map(x => s.layerBegan + x[1]);
    if (s.step === "clock") for (const x of stepsOf(s, Date.parse(s.cup.partB))) if (x.at <= home.now()) due.push(s.cup.partB + x.what + x.at);
    for (const d of due) if (!alarmed.has(d)) { alarmed.add(d); if (tick.ready) { beep(); if (s.step === "clock") draw(true); } }
    tick.ready = true;
  }

  // Figures and Enter go to the amount wherever the last click was; words go to their own field, and Enter to a button reached by Tab.
  document.addEventListener("keydown", e => {
    if (!amount || e.defaultPrevented || e.ctrlKey || e.metaKey || e.altKey || e.isComposing) return;
    const at = e.target, own = at === amount.input;
    if (!own && at.matches?.("input:not([type=radio]), textarea, select")) return;
    if (e.key === "Enter") { if (own || !at.closest?.("button, a, summary") || at.closest(".pad")) { e.preventDefault(); amount.take(); } } else if (!own && (/^[0-9.,]$/.test(e.key) || e.key === "Backspace")) { e.preventDefault(); amount.input.focus(); amount.put(e.key === "Backspace" ? "⌫" : e.key); }
  });
  draw(true);
  setInterval(tick, 500);
  return { draw };
}
