// A colour read from a photo: one points, the book reads, and what it read is filled into a form.
import { $, before, send } from "./page.js";

const reader = $("[data-photo-reading]"), form = $("#" + reader.dataset.photoReading);
const file = $("#ph-f"), kind = $("#ph-w"), say = $("#ph-say"), over = $(".over", reader), img = $("#ph-img"), rings = $("#ph-rings");
const CARD = ["the card", "the resin"];
const CHART = ["the dark skin patch, a corner of the chart", "the bluish green patch, the next corner", "the black patch", "the white patch", "the resin"];
const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const inside = v => Math.min(1, Math.max(0, v));
let points = [], here = null, read = null;

const asks = () => kind.value === "chart" ? CHART : CARD;

function ring([x, y], r, kind) {
  const made = document.createElementNS("http://www.w3.org/2000/svg", "ellipse");
  for (const [name, value] of Object.entries({ cx: x * 1000, cy: y * 1000, rx: r, ry: r * img.clientWidth / Math.max(1, img.clientHeight), class: kind })) made.setAttribute(name, value);
  return made;
}

function draw() {
  const places = here ? [...points, here] : points;
  rings.replaceChildren(...places.flatMap(at => [ring(at, 12, at === here ? "here" : ""), ring(at, 15, "out")]));
}

function begin() {
  points = []; read = null;
  say.textContent = file.files[0] ? "Press on " + asks()[0] + "." : "";
  draw();
}

async function point(at) {
  if (points.length >= asks().length) points = [];
  points.push(at);
  draw();
  if (points.length < asks().length) { say.textContent = "Press on " + asks()[points.length] + "."; return; }
  say.textContent = "Reading …";
  const mine = points;
  try {
    const answer = await send("/photo-reading?with=" + kind.value + "&L=" + encodeURIComponent($("#ph-l").value) + "&points=" + points.map(p => p.map(v => v.toFixed(6)).join(",")).join(";"), file.files[0]);
    const text = await answer.text();
    // Another photo or other places were pointed at meanwhile: this answer is to the earlier ones.
    if (mine !== points) return;
    if (!answer.ok) { say.textContent = text; return; }
    read = JSON.parse(text);
    for (const [name, value] of Object.entries(read)) if (form.elements[name]) form.elements[name].value = value;
    say.textContent = read.told + " " + reader.dataset.then;
    if (!reader.dataset.then) form.requestSubmit();
  } catch { if (mine === points) say.textContent = "The book does not answer, so nothing was read. Start it again."; }
}

kind.addEventListener("change", begin);
file.addEventListener("change", () => {
  if (!file.files[0]) return;
  URL.revokeObjectURL(img.src);
  img.src = URL.createObjectURL(file.files[0]);
  $("figure", reader).hidden = false;
  here = null;
  begin();
});
img.addEventListener("load", draw);
img.addEventListener("click", e => {
  const box = img.getBoundingClientRect();
  here = null;
  point([(e.clientX - box.left) / box.width, (e.clientY - box.top) / box.height].map(inside));
});
over.addEventListener("keydown", e => {
  const way = WAYS[e.key], step = e.shiftKey ? .05 : .01;
  if (way) { here = (here ?? [.5, .5]).map((v, i) => inside(v + step * way[i])); draw(); } else if (here && (e.key === "Enter" || e.key === " ")) point(here); else return;
  e.preventDefault();
});

// What was read goes into the book together with the photo it was read from.
if (reader.dataset.keep) before.set(form, async () => {
  if (!read || form.elements.colour.value !== read.colour) return "";
  const answer = await send(reader.dataset.keep, file.files[0]);
  if (!answer.ok) return "The photo can’t be kept, and so the reading was not: " + await answer.text();
  read = null;
  return "";
});
