// What every part of the page shares: finding, asking the book, and putting in what an answer changed.
export const $ = (s, e = document) => e.querySelector(s), all = (s, e = document) => [...e.querySelectorAll(s)];

const theme = localStorage.getItem("theme");
if (theme) document.documentElement.dataset.theme = theme;

let token = null;
const askToken = async () => token ??= await (await fetch("/token")).text();

/** Sends a change. The book's token is asked for again where the book was started anew meanwhile. */
export async function send(path, body) {
  for (let again = false; ; again = true) {
    const answer = await fetch(path, { method: "POST", headers: { "X-Book-Token": await askToken() }, body });
    if (answer.status !== 403 || again) return answer;
    token = null;
  }
}

/** What the book tells where it can't do what was asked; missing: the path of what is still to be typed, where that is all. */
export class Refused extends Error { constructor(text, missing) { super(text); this.missing = missing; } }

/** Asks in JSON for a change and returns what is answered in JSON. */
export async function ask(path, asked) {
  const answer = await send(path, JSON.stringify(asked));
  if (!answer.ok) throw new Refused(await answer.text(), answer.headers.get("X-Missing"));
  return answer.json();
}

/** What a form still has to do before it is sent: it returns what hinders, in words, or nothing. */
export const before = new WeakMap();

const followers = [];
/** Calls back with each page that was asked for anew, after its marked parts were put in. */
export const onPage = f => followers.push(f);

/** Puts the marked parts of a newer state of this page in; the field under the fingers is never touched. */
export function take(page, leave = () => false) {
  for (const part of all("[data-part]")) {
    const now = page.getElementById(part.id);
    if (!now || leave(part) || part.contains(document.activeElement) && document.activeElement !== part) continue;
    if (part.innerHTML !== now.innerHTML) part.innerHTML = now.innerHTML;
    for (const kept of ["class", "hidden"]) {
      if (now.hasAttribute(kept)) part.setAttribute(kept, now.getAttribute(kept)); else part.removeAttribute(kept);
    }
  }
  for (const f of followers) f(page);
}

/** Makes asking for pages orderly: one question at a time, the newest last; an answer to an older one is not shown. */
export function asker(address, shown, failed) {
  let busy = false, again = false;
  const ask = async () => {
    if (busy) { again = true; return; }
    const url = address();
    let answer = null, text = "";
    busy = true;
    try { answer = await fetch(url, { headers: { Accept: "text/html" } }); text = await answer.text(); } catch (e) { if (!again) failed(e); answer = null; }
    busy = false;
    if (again) { again = false; ask(); } else if (answer) shown(new DOMParser().parseFromString(text, "text/html"), url, answer.ok);
  };
  return ask;
}

/** Cells as office programs leave and expect them where copied text is kept. */
export const tsv = text => /[\t\n"]/.test(text) ? '"' + text.replaceAll('"', '""') + '"' : text;
export const fromTsv = text => {
  const rows = [[]];
  let cell = "", quoted = false;
  const put = () => { rows.at(-1).push(cell.trim()); cell = ""; };
  const s = text.replace(/\r\n?/g, "\n").replace(/\n$/, "");
  for (let i = 0; i < s.length; i++) {
    const ch = s[i];
    if (quoted) { if (ch === '"') { if (s[i + 1] === '"') { cell += '"'; i++; } else quoted = false; } else cell += ch; }
    else if (ch === '"' && cell === "") quoted = true;
    else if (ch === "\t") put();
    else if (ch === "\n") { put(); rows.push([]); }
    else cell += ch;
  }
  put();
  return rows;
};
export const fromHtml = html => all("tr", new DOMParser().parseFromString(html, "text/html")).map(tr => [...tr.cells].map(td => td.textContent.replace(/\s+/g, " ").trim()));
