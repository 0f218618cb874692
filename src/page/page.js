// page.js - holds the case, asks the program after every change and shows its answer. No number
// is worked out here: all come from the program, which runs the calls of its command line.
import { Fields, make, read, write, words } from "./fields.js";

const $ = (id) => document.getElementById(id);

const state = {
  deck: null,          // the case
  name: "",            // of its file
  saved: "",           // its text when it was opened or saved
  members: [],         // of the last answer with a verdict
  governing: null,     // index of the one nearest to its limit
  order: [],           // pointers of the bents along the deck
  past: [],            // texts to go back to
  example: null,       // the case that this one was begun with, of the program's
  exampleName: "",     // its file
  so: false,           // said of the rest of the example: it is so with mine
  typedAt: 0,          // when the change came that is not answered yet
};

const host = {
  get deck() { return state.deck; },
  get metric() { return state.deck?.units === "metric"; },
  words: {},           // choices that the program lists
  species: [],         // names that it knows
  changed,
  mark,
  along,
  say: (text) => say_("told", text),
};
const fields = new Fields($("form"), host);

// The case as it is checked and saved: the same bytes, so that the record names the saved file.
const textOf = (deck) => JSON.stringify(deck, null, 2) + "\n";

// ---- asking the program ----

async function ask(path, body, signal) {
  const response = await fetch(path, body === undefined ? { signal }
    : { method: "POST", headers: { "Content-Type": "application/json" }, body, signal });
  if (!response.ok && response.status !== 422) throw new Error("the program refuses: " + (await response.text()).trim());
  return response;
}

const askJson = async (path, body, signal) => (await ask(path, body, signal)).json();

// How the bents follow on each other along the deck, as indices, and a place for one more behind one of
// them (or the last). Null: a place is missing or cannot be read.
async function along(after) {
  const texts = (Array.isArray(state.deck.bents) ? state.deck.bents : []).map((b) => b?.at);
  if (texts.length === 0 || !texts.every((t) => typeof t === "string")) return null;
  const query = [["units", host.metric ? "metric" : "imperial"], ...texts.map((text) => ["text", text])];
  if (after !== undefined) query.push(["after", String(after)]);
  return askJson("/along?" + new URLSearchParams(query)).catch(() => null);
}

const wait = (ms) => new Promise((done) => setTimeout(done, ms));

// One question at a time; while it runs, only the newest change waits.
let asking = false, wanted = false, stopTrials = null, stopCheck = null;

// A check of the whole deck that takes longer than this is preceded by a look at a part of it.
const slow = 500, rest = 300; /* ms */
let tookLast = 0;

async function pump() {
  if (asking) return;
  asking = true;
  document.body.dataset.asking = "yes";
  while (wanted) {
    wanted = false;
    const since = state.typedAt;
    const text = textOf(state.deck);
    try {
      if (tookLast > slow && await lookAtPart(since)) {
        await wait(rest);
        if (wanted) continue;
      }
      const began = performance.now();
      stopCheck = new AbortController();
      const answer = await askJson("/check", text, stopCheck.signal);
      if (answer.result !== null) tookLast = performance.now() - began;
      trouble("");
      show(answer, since);
    } catch (error) {
      if (error.name === "AbortError") continue;
      trouble(error instanceof TypeError
        ? "The program does not answer. Start it again (bolewright page); your work is kept in this browser."
        : error.message);
      await wait(1500);
      wanted = true;
    }
  }
  asking = false;
  delete document.body.dataset.asking;
  slidersFollow();
  trialsLater();
}

// The bents about the member that was nearest to its limit, as a deck of their own: the same check of
// less, and said to be that. Null: it cannot be cut out of the deck.
function partOf(deck, around) {
  const most = 8, order = state.order.map((p) => read(deck, p));
  if (order.length <= most || order.some((b) => typeof b?.name !== "string")) return null;
  const place = new Map(order.map((b, k) => [b.name, k]));
  let first = Math.max(0, Math.min(around - 2, order.length - 6)), last = Math.min(order.length - 1, first + 5);
  const stringers = Array.isArray(deck.stringers) ? deck.stringers : [];
  const ends = stringers.map((s) => [place.get(s?.from), place.get(s?.to)]);
  for (let grown = true; grown;) {
    grown = false;
    for (const [from, to] of ends) {
      if (from < first && to > first) { first = from; grown = true; }
      if (from < last && to > last) { last = to; grown = true; }
    }
  }
  if (last - first > most) return null;
  const inside = (name) => name === undefined || (place.get(name) >= first && place.get(name) <= last);
  const part = structuredClone(deck);
  part.bents = order.slice(first, last + 1);
  part.stringers = stringers.filter((s) => inside(s?.from) && inside(s?.to));
  if (Array.isArray(part.braces)) part.braces = part.braces.filter((b) => [b?.bent, b?.from?.bent, b?.to?.bent].every(inside));
  if (part.braces?.length === 0) delete part.braces;
  if (part.loads?.take_off && !inside(part.loads.take_off.bent)) delete part.loads.take_off;
  return { text: textOf(part), words: order[first].name + " to " + order[last].name };
}

async function lookAtPart(since) {
  const part = partOf(state.deck, state.members[state.governing]?.bent ?? 0);
  if (part === null) return false;
  const answer = await askJson("/try", part.text);
  if (answer.result === null) return false; /* the fault may come of cutting: the whole will tell */
  trouble("");
  showPart(answer.result, part.words, since);
  return true;
}

function trouble(sentence) {
  $("trouble").hidden = sentence === "";
  if ($("trouble").textContent !== sentence) $("trouble").textContent = sentence;
}

// ---- changes ----

function changed() {
  state.typedAt = performance.now();
  again(); /* what is asked for first: the program works while the rest is done here */
  keep();
  showExample();
  document.title = title();
  document.body.dataset.units = host.metric ? "metric" : "imperial";
  $("title").textContent = state.deck.title || "A deck of logs";
}

function again() {
  stopTrials?.abort();
  $("trials").inert = true; /* they are of the case before */
  if (tookLast > slow) stopCheck?.abort();
  wanted = true;
  pump();
}

const title = () => (dirty() ? "* " : "") + (state.deck?.title ?? "") + " - bolewright";
const dirty = () => state.deck !== null && textOf(state.deck) !== state.saved;

// A step to go back to: once per field, not per key.
let marked = "";
function mark() {
  if (state.deck === null) return;
  const text = textOf(state.deck);
  if (text === marked) return;
  if (marked !== "") state.past.push(marked);
  if (state.past.length > 100) state.past.shift();
  marked = text;
  $("do-undo").disabled = state.past.length === 0;
}

function undo() {
  mark();
  const text = state.past.pop();
  if (text === undefined) return;
  state.deck = JSON.parse(text);
  marked = text;
  if (state.past.length === 0 && [$("do-undo"), document.body].includes(document.activeElement)) $("do-save").focus(); /* not lost with the button */
  $("do-undo").disabled = state.past.length === 0;
  fields.told = null;
  fields.build();
  changed();
  say_("told", "One step taken back.");
}

// ---- keeping unsaved work in the browser ----

const keptKey = "bolewright.kept", own = String(Date.now()) + "-" + Math.random().toString(36).slice(2, 8);
const keptMost = 6;

// A list that the browser keeps.
function stored(key) {
  try {
    const all = JSON.parse(localStorage.getItem(key) ?? "[]");
    return Array.isArray(all) ? all : [];
  } catch { return []; }
}

function store(key, list) {
  try {
    localStorage.setItem(key, JSON.stringify(list));
    return true;
  } catch { return false; }
}

const keptAll = () => stored(keptKey).filter((k) => typeof k?.text === "string");
const keptWrite = (all) => store(keptKey, all.slice(-keptMost));

const keepsake = (id) => ({ id, when: new Date().toISOString(), name: state.name, text: textOf(state.deck), example: state.exampleName });

function keep() {
  const others = keptAll().filter((k) => k.id !== own);
  const changedHere = dirty();
  const kept = keptWrite(changedHere ? [...others, keepsake(own)] : others);
  tellState(!changedHere ? "" : kept ? "Not saved to a file yet; kept in this browser."
    : "Not saved, and this browser keeps nothing: save it to a file.");
}

// Above the case and at its end, where there are buttons that save.
function tellState(text) {
  for (const id of ["kept-state", "end-state"]) setText(id, text);
}

// What is not saved stays kept when another deck takes its place.
function setAside() {
  if (state.deck === null || !dirty()) return;
  const text = textOf(state.deck), others = keptAll().filter((k) => k.text !== text && k.id !== own);
  keptWrite([...others, keepsake(own + "-" + Date.now())]);
  offer();
}

function offer() {
  const all = keptAll().filter((k) => k.id !== own);
  const box = $("offers");
  box.replaceChildren();
  box.hidden = all.length === 0;
  if (all.length > 0) box.append(make("h2", { text: "Unsaved work is kept in this browser" }));
  for (const k of [...all].reverse()) {
    let name = k.name || "a deck";
    try { name = JSON.parse(k.text).title || name; } catch { /* text that is no case yet */ }
    const forget = () => { keptWrite(keptAll().filter((other) => other.id !== k.id)); offer(); };
    box.append(make("p", {}, name + ", " + new Date(k.when).toLocaleString() + " ",
      make("button", { type: "button", class: "main", text: "Restore it", onclick: () => { if (take(k.text, k.name, "")) { forget(); $("verdict").focus(); beganWith(k.example ?? ""); } } }), " ",
      make("button", { type: "button", text: "Discard it", onclick: forget })));
  }
}

// ---- what still stands as the program's example had it: nobody has measured that ----

const exampleParts = [["the width", "/deck/width"], ["the species of the boards", "/deck/boards/species"], ["the grade of the boards", "/deck/boards/grade"], ["the width of the boards", "/deck/boards/width"],
  ["the thickness of the boards", "/deck/boards/thickness"], ["the rows", "/rows"], ["the height", "/every_bent/deck_height"], ["the depth of the holes", "/every_bent/posts/0/hole_depth", "/every_bent/posts/1/hole_depth"],
  ["the pads", "/every_bent/posts/0/pad", "/every_bent/posts/1/pad"], ["the places of the bents", "/bents"], ["the rider", "/loads/rider/mass"], ["how hard riders press down", "/loads/rider/factor"],
  ["the people", "/loads/crowd"], ["the soil", "/ground/soil"], ["that posts may move 1/2 in", "/ground/half_inch_movement_ok"]];

const exampleFiles = { imperial: "start-feet.json", metric: "start-metres.json" };

async function beganWith(name, does = () => true) {
  if (!Object.values(exampleFiles).includes(name)) return;
  const deck = state.deck, example = await askJson("/" + name).catch(() => null);
  if (state.deck !== deck || example === null || !does(example)) return;
  Object.assign(state, { example, exampleName: name });
  keep();
  showExample();
}

// A file does not say what it was begun with: rows and a log of the example's names tell, unless it was said
// of this very text that all is so.
function perhapsBegan() {
  const deck = state.deck, names = (list) => (Array.isArray(list) ? list : []).map((item) => item?.name);
  if (saidSo().includes(textOf(deck))) return;
  beganWith(exampleFiles[deck.units], (example) => names(deck.rows).join() === names(example.rows).join() && names(example.logs).some((name) => names(deck.logs).includes(name)));
}

const soKey = "bolewright.so", soMost = 20;

const saidSo = () => stored(soKey);

function keepSaidSo(text) {
  if (state.so) store(soKey, [...saidSo().filter((t) => t !== text), text].slice(-soMost)); /* else it is told again */
}

function showExample() {
  const example = state.example, box = $("example");
  const same = (pointer) => JSON.stringify(read(state.deck, pointer)) === JSON.stringify(read(example, pointer));
  const parts = example === null ? [] : [...example.logs.flatMap((log, k) => [["the species of the " + log.name, "/logs/" + k + "/species"],
    ["the butt of the " + log.name, "/logs/" + k + "/butt_girth"], ["the tip of the " + log.name, "/logs/" + k + "/tip_girth"]]),
    ["that all logs are peeled", ...example.logs.map((_, k) => "/logs/" + k + "/bark")], ...exampleParts];
  const left = parts.filter(([, ...pointers]) => pointers.every(same)).map(([label]) => label);
  const few = 10, named = left.length > few ? left.slice(0, few).join(", ") + ", and " + (left.length - few) + " more" : left.join(", ");
  const sentence = left.length === 0 ? "" : left.length === parts.length
    ? "This is the example still: change it to the logs, measures, ground and loads that are yours."
    : "Still as in the example, so perhaps not yours: " + named + ".";
  for (const id of ["example", "record-example", "yet"]) $(id).hidden = sentence === "";
  setText("yet", left.length === parts.length ? "The example still" : left.length + (left.length === 1 ? " thing" : " things") + " as in the example");
  if (box.dataset.said === sentence) return;
  box.dataset.said = $("record-example").textContent = sentence;
  box.replaceChildren(sentence, " ", make("button", { type: "button", class: "small", text: "It is so with mine", onclick: () => {
    Object.assign(state, { example: null, exampleName: "", so: true });
    if (!dirty()) keepSaidSo(textOf(state.deck));
    keep();
    showExample();
    $("verdict").focus(); /* the button goes */
  } }));
}

// ---- opening and saving ----

// The text becomes the case: another one, or this one in another form. What is no case at all goes to the text field, with its faults.
function take(text, name, saved = text, other = true) {
  let deck;
  try { deck = JSON.parse(text); } catch { deck = undefined; }
  state.name = name ?? "";
  $("begin").hidden = true;
  $("work").hidden = false;
  ready();
  if (typeof deck !== "object" || deck === null || Array.isArray(deck)) {
    raw(text);
    return false;
  }
  if (state.deck !== null) mark();
  if (other) {
    setAside();
    Object.assign(state, { example: null, exampleName: "", so: false });
  }
  fields.told = null;
  state.deck = deck;
  state.saved = saved === text ? textOf(deck) : saved;
  mark();
  fields.build();
  changed();
  return true;
}

// The reader of the program sees more than JSON.parse does, such as a key that stands there twice.
async function open_(text, name, edited = false) {
  const answer = await askJson("/check", text === "" ? " " : text).catch(() => null);
  const faults = (answer?.faults ?? []).filter((f) => f.id?.startsWith("json."));
  if (faults.length > 0) {
    state.name = name;
    raw(text, faults);
    if (answer) show(answer, performance.now());
  } else {
    if (take(text, name, edited ? "" : text, !edited) && !edited) perhapsBegan();
  }
}

function ready() {
  for (const id of ["do-save", "do-record", "do-pile"]) $(id).disabled = false;
}

function raw(text, faults = []) {
  ready();
  $("begin").hidden = true;
  $("work").hidden = false;
  if (state.deck === null) {
    state.deck = { format: 1 };
    state.saved = textOf(state.deck);
    fields.build();
  }
  $("raw").open = true;
  $("raw-text").value = text;
  const fault = $("raw-fault");
  fault.hidden = false;
  fault.replaceChildren("This text is no case yet. Mend it here and take it.",
    ...faults.flatMap((f) => [make("br"), "line " + f.line + ", column " + f.column + ": " + words(f)]));
  $("raw-text").focus();
}

function download(text, name, type) {
  const link = make("a", { href: URL.createObjectURL(new Blob([text], { type })), download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

function fileName(ending) {
  const stem = (state.name.replace(/\.json$/i, "") || state.deck?.title || "deck").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "");
  return (stem || "deck") + ending;
}

function save() {
  const text = textOf(state.deck);
  state.name = state.name || fileName(".json");
  download(text, state.name, "application/json");
  state.saved = text;
  keepSaidSo(text);
  keep();
  tellState("Saved as " + state.name + ", where your browser puts downloads.");
  say_("told", $("kept-state").textContent);
  document.title = title();
}

async function record() {
  const date = $("record-date").value.trim();
  $("record-fault").textContent = "";
  try {
    const name = state.name || fileName(".json");
    const response = await ask("/record?name=" + encodeURIComponent(name) + "&date=" + encodeURIComponent(date), textOf(state.deck));
    if (response.status === 422) {
      $("record-fault").textContent = "There is no verdict yet: mend the faults first.";
      return;
    }
    download(await response.text(), fileName(".html"), "text/html");
    $("record").close();
    tellState("The record is " + fileName(".html") + ", where your browser puts downloads" + (dirty() ? "; the case itself is not saved to a file yet." : "."));
    say_("told", $("kept-state").textContent);
  } catch (error) {
    $("record-fault").textContent = error.message;
  }
}

// ---- showing the answer ----

const classes = { "within limits": "verdict", over: "verdict over", "cannot say": "verdict unsure" };

let newest = null;

function show(answer, since) {
  const r = answer.result;
  const errors = fields.plainAll(answer.faults.filter((f) => f.severity === "error"));
  const verdict = $("verdict");
  document.body.dataset.state = r === null ? "faults" : r.verdict.replaceAll(" ", "-");
  verdict.className = r === null ? "verdict unsure" : classes[r.verdict];
  if (r === null) {
    setText("word", "NO VERDICT");
    setText("words", errors.length === 0 ? answer.sentence : (errors.length > 1 ? errors.length + " faults stand in the way, first: " : "") + located(errors[0]));
  } else {
    const [, word, rest] = /^([^:;,]+)[:;,] *(.*)$/s.exec(r.words) ?? [null, r.words, ""];
    setText("word", word);
    setText("words", rest === "" ? "" : rest[0].toUpperCase() + rest.slice(1) + ".");
  }
  showFaults(answer.faults);
  $("work").classList.remove("part");
  $("work").classList.toggle("stale", r === null);
  sayVerdict();
  if (r !== null) {
    state.members = r.members;
    state.order = r.bents;
    state.governing = r.member;
    newest = r;
  }
  /* the verdict is painted before lists and drawing are made anew */
  requestAnimationFrame(() => setTimeout(() => { if (r !== null && newest === r) showResult(r); }));
  const done = () => {
    verdict.dataset.ms = String(Math.round(performance.now() - since));
    verdict.dataset.answers = String(Number(verdict.dataset.answers ?? 0) + 1);
  };
  requestAnimationFrame(done);
}

function showPart(r, words_, since) {
  const verdict = $("verdict");
  document.body.dataset.state = "part";
  verdict.className = "verdict unsure";
  setText("word", "First look at bents " + words_ + " alone; the whole deck follows");
  setText("words", r.words + ".");
  $("work").classList.add("part");
  requestAnimationFrame(() => {
    verdict.dataset.partMs = String(Math.round(performance.now() - since));
    verdict.dataset.parts = String(Number(verdict.dataset.parts ?? 0) + 1);
  });
}

// "stringer log, Butt: ...": a fault with the name of its field.
const located = (fault) => (fault.path ? fields.labelOf(fault.path) + ": " : "") + words(fault);

// For those who hear the page: the verdict is said when the typing rests, not at every key.
let sayTimer = 0;
function sayVerdict() {
  clearTimeout(sayTimer);
  sayTimer = setTimeout(() => say_("said", $("word").textContent + ". " + $("words").textContent), 700);
}

function say_(id, text) {
  if ($(id).textContent !== text) $(id).textContent = text;
}

function setText(id, text) {
  if ($(id).textContent !== text) $(id).textContent = text;
}

function showFaults(told) {
  const faults = fields.plainAll(told);
  const box = $("faults");
  box.hidden = faults.length === 0;
  box.replaceChildren();
  if (faults.length > 0) {
    const count = (n, one) => n === 0 ? [] : [n === 1 ? "a " + one : n + " " + one + "s"];
    const wrong = faults.filter((f) => f.severity === "error").length, heading = [...count(wrong, "fault"), ...count(faults.length - wrong, "warning")].join(" and ");
    box.append(make("h3", { text: heading[0].toUpperCase() + heading.slice(1) + " in the case" }),
      make("ul", {}, ...faults.slice(0, 12).map((f) => make("li", {},
        f.path ? make("button", { type: "button", class: "link", text: fields.labelOf(f.path), "data-path": f.path, onclick: () => fields.focus(f.path) }) : "",
        (f.path ? ": " : "") + (f.severity === "error" ? "" : f.severity + ": ") + words(f)))));
  }
  fields.showFaults(told);
}

const inGround = ["hole", "footing", "uplift"]; /* what the hole mends, not the log */

function showResult(r) {
  const enough = r.to_do.length > 0 ? "Nothing else, once what is to be done is done." : "Nothing must change.";
  setText("remedy", r.verdict === "within limits" ? enough + " For more in hand - " + (r.remedy ?? "") : r.remedy ?? "");
  const governing = r.members[r.member], way = inGround.includes(governing?.check) ? governing.pointer : governing?.log ?? governing?.pointer;
  $("remedy-go").hidden = !way;
  $("remedy-go").onclick = () => fields.focus(way);
  setText("rider", r.rider ?? "no rider on this deck");
  setText("caution", r.cautions[0] ?? "");
  $("loads").replaceChildren(...r.loads.flatMap((text, k) => [k > 0 ? "; " : "", text.endsWith(": none") ? make("strong", { text }) : text]));
  $("looks").replaceChildren(...r.looks.map((look) => make("li", {},
    make("button", { type: "button", class: "link", text: (look.verdict === "over" ? "OVER: " : "") + look.line, onclick: () => working(look.member) }),
    look.note ? make("small", { text: " note: " + look.note }) : "")));
  $("to-do").hidden = r.to_do.length === 0;
  for (const [id, items] of [["to-do", r.to_do], ["assumed", r.assumed], ["not-checked", r.not_checked], ["cautions", r.cautions]]) {
    $(id).querySelector("ul").replaceChildren(...items.map((text) => make("li", { text })));
  }
  fields.headings();
  fields.showShares(r.members);
  draw(r.drawing);
}

// Markup of the report code, which escapes all text of the case.
function markup(html) {
  return [...new DOMParser().parseFromString(html, "text/html").body.childNodes];
}

let drawn = "";
function draw(html) {
  if (html === drawn) return;
  drawn = html;
  const box = $("drawing");
  const focus = document.activeElement?.dataset?.member;
  const scrolls = [...box.querySelectorAll(".wide")].map((w) => w.scrollLeft);
  box.replaceChildren(...markup(html));
  [...box.querySelectorAll(".wide")].forEach((w, k) => { w.scrollLeft = scrolls[k] ?? 0; });
  for (const svg of box.querySelectorAll("svg[role=img]:has([data-member])")) {
    svg.setAttribute("role", "group");
    [...svg.querySelectorAll("[data-member]")].forEach((log, k) => {
      log.setAttribute("role", "button");
      log.setAttribute("tabindex", k === 0 ? "0" : "-1");
    });
  }
  if (focus !== undefined) box.querySelector('[data-member="' + focus + '"]')?.focus();
}

function pressed(event) {
  const log = event.target.closest?.("[data-member]");
  if (!log) return;
  if (event.type === "click" || event.key === "Enter" || event.key === " ") {
    event.preventDefault();
    working(Number(log.dataset.member));
    return;
  }
  const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
  if (step === undefined) return;
  event.preventDefault();
  const all = [...log.closest("svg").querySelectorAll("[data-member]")];
  const from = all.indexOf(log);
  let at = from;
  do at = (at + step + all.length) % all.length; while (at !== from && all[at].dataset.member === log.dataset.member); /* boards: one member, drawn bay by bay */
  const next = all[at];
  log.setAttribute("tabindex", "-1");
  next.setAttribute("tabindex", "0");
  next.focus();
}

async function working(member) {
  const m = state.members[member];
  if (!m) return;
  $("working-h").textContent = (m.role === m.name ? m.name : m.role + " " + m.name) + (m.share ? ", " + m.share : "");
  $("working-body").replaceChildren(make("p", { text: "…" }));
  for (const [id, pointer] of [["working-edit", m.log], ["working-place", m.pointer]]) {
    $(id).hidden = !pointer || (id === "working-place" && pointer === m.log);
    $(id).onclick = () => { $("working").close(); fields.focus(pointer); };
  }
  if (!$("working").open) $("working").showModal();
  try {
    const answer = await askJson("/working?member=" + member, textOf(state.deck));
    $("working-body").replaceChildren(...(answer.status === 0 ? markup(answer.html)
      : [make("p", { text: "The case has faults now; its last verdict cannot be shown." })]));
  } catch (error) {
    $("working-body").replaceChildren(make("p", { text: error.message }));
  }
}

// ---- sliders: their places are quantities that the program wrote ----

const sliders = { spacing: newSlider("spacing"), girth: newSlider("girth"), depth: newSlider("depth") };

function newSlider(by) {
  const slider = { by, input: $("s-" + by), output: $("o-" + by), pointers: [], places: [], basis: "" };
  slider.input.addEventListener("input", () => {
    const place = slider.places[Number(slider.input.value)];
    if (!place) return;
    slider.pointers.forEach((pointer, k) => write(state.deck, pointer, place.texts[k]));
    slider.basis = basisOf(slider.pointers);
    say(slider);
    fields.refresh();
    changed();
  });
  slider.input.addEventListener("change", mark);
  return slider;
}

const textsAt = (pointers) => pointers.map((p) => read(state.deck, p));
const basisOf = (pointers) => JSON.stringify([state.deck.units, pointers, textsAt(pointers)]);

function say(slider) {
  const label = slider.places[Number(slider.input.value)]?.label ?? "–";
  slider.output.textContent = label;
  slider.input.setAttribute("aria-valuetext", label);
}

function pointersOf(by) {
  const isText = (p) => typeof read(state.deck, p) === "string";
  if (by === "spacing") return state.order.map((p) => p + "/at").filter(isText);
  if (by === "girth") {
    const log = $("which-log").value;
    return ["butt_girth", "butt_diameter", "tip_girth", "tip_diameter"].map((key) => log + "/" + key).filter(isText);
  }
  const posts = (at) => (Array.isArray(read(state.deck, at)) ? read(state.deck, at) : []).map((_, k) => at + "/" + k + "/hole_depth");
  const bents = Array.isArray(state.deck.bents) ? state.deck.bents : [];
  return [...posts("/every_bent/posts"), ...bents.flatMap((_, k) => posts("/bents/" + k + "/posts"))].filter(isText);
}

async function slidersFollow() {
  if (state.deck === null) return;
  const logs = Array.isArray(state.deck.logs) ? state.deck.logs : [];
  const select = $("which-log"), chosen = select.value;
  const entries = logs.map((log, k) => ["/logs/" + k, typeof log?.name === "string" ? log.name : "log " + (k + 1)]);
  if (JSON.stringify(entries) !== select.dataset.entries) {
    select.dataset.entries = JSON.stringify(entries);
    select.replaceChildren(...entries.map(([value, text]) => make("option", { value, text })));
    const governing = state.members[state.governing]?.log;
    select.value = entries.some(([value]) => value === chosen) ? chosen : entries.some(([value]) => value === governing) ? governing : entries[0]?.[0] ?? "";
  }
  for (const slider of Object.values(sliders)) {
    const pointers = pointersOf(slider.by), basis = basisOf(pointers);
    if (basis === slider.basis) continue;
    const answer = await steps(slider.by, textsAt(pointers)).catch(() => ({ places: [], at: 0 }));
    if (basisOf(pointersOf(slider.by)) !== basis) continue; /* changed meanwhile: the next answer comes here again */
    Object.assign(slider, { pointers, places: answer.places, basis });
    slider.input.disabled = answer.places.length < 2;
    slider.input.min = "0";
    slider.input.max = String(Math.max(0, answer.places.length - 1));
    slider.input.value = String(answer.at);
    say(slider);
  }
}

const steps = (by, texts, signal) => askJson("/steps?" + new URLSearchParams([["units", host.metric ? "metric" : "imperial"], ["by", by],
  ...texts.map((text) => ["text", text])]), undefined, signal);

// ---- what a change would do: the whole deck is checked again with each ----

let trialTimer = 0;
function trialsLater() {
  clearTimeout(trialTimer);
  trialTimer = setTimeout(trials, 700);
}

const ranks = ["within limits", "cannot say", "over"];
const better = (a, b) => ranks.indexOf(a.verdict) < ranks.indexOf(b.verdict) || (a.verdict === b.verdict && a.utilisation !== null && a.utilisation < b.utilisation);

async function trials() {
  const box = $("trials");
  if (asking || wanted || state.members.length === 0 || document.body.dataset.state === "faults") { box.replaceChildren(); return; }
  stopTrials = new AbortController();
  const signal = stopTrials.signal, before = textOf(state.deck);
  const kinds = [["spacing", pointersOf("spacing"), -3, "bents closer"], ["depth", pointersOf("depth"), 3, "holes deeper"]];
  const log = state.members[state.governing]?.log;
  if (log === "/deck/boards") {
    kinds.unshift(["thickness", [log + "/thickness"].filter((p) => typeof read(state.deck, p) === "string"), 2, "boards thicker"]);
  } else if (log) {
    const name = read(state.deck, log + "/name");
    kinds.unshift(["girth", ["butt_girth", "butt_diameter", "tip_girth", "tip_diameter"].map((k) => log + "/" + k)
      .filter((p) => typeof read(state.deck, p) === "string"), 4, name + " thicker", "I have such a log"]);
  }
  const list = make("ul"); /* it grows: who has come to a button of it keeps it */
  try {
    for (const [by, pointers, step, label, word = "Use it"] of kinds) {
      if (pointers.length === 0) continue;
      const answer = await steps(by, textsAt(pointers), signal);
      const place = answer.places[answer.at + step];
      if (!place) continue;
      const deck = structuredClone(state.deck);
      pointers.forEach((pointer, k) => write(deck, pointer, place.texts[k]));
      const tried = await askJson("/try", textOf(deck), signal);
      if (textOf(state.deck) !== before) return;
      /* what governs may be something that this does not touch, or what another place makes worse */
      const gains = tried.result && better(tried.result, newest);
      const told = !tried.result ? "does not fit: " + words(tried.faults[0] ?? { message: tried.sentence })
        : (gains ? "" : tried.result.share === newest.share ? "no gain, " : "worse, ") + (tried.result.share ?? "") + ", " + tried.result.verdict;
      box.inert = false;
      list.append(make("li", {}, label + ", " + place.label + ": ", make(gains ? "b" : "span", { text: told }), " ",
        gains ? make("button", { type: "button", class: "small", text: word, "aria-label": word + ": " + label, onclick: () => use(deck) }) : ""));
      if (list.childElementCount === 1) box.replaceChildren(make("h4", { text: "What a change would do" }), list);
    }
  } catch (error) {
    if (error.name !== "AbortError") box.replaceChildren();
  }
  if (list.childElementCount === 0) box.replaceChildren();
}

function use(deck) {
  mark();
  state.deck = deck;
  mark();
  fields.told = null;
  fields.build();
  changed();
  $("verdict").focus(); /* the button that was pressed goes with the list */
}

// ---- questions besides the case: the commands of the same name ----

const mixed = (name, label, feet, metres) => ({ name, label, examples: [feet, metres] });
const chosenOf = (name, label, options) => ({ name, label, options });
const unitsField = chosenOf("units", "Answer in", [["imperial", "feet and inches"], ["metric", "metres"]]);
const speciesField = mixed("species", "Species", "lodgepole pine", "European larch");
const dutyFields = [
  chosenOf("use", "For", [["", "riders"], ["people", "people"], ["both", "both"]]),
  mixed("width", "Deck, wide", "4 ft", "1.2 m"), mixed("rows", "Rows, apart", "3 ft", "900 mm"),
  chosenOf("grade", "Looked over", [["", "not yet"], ["sound", "sound: not a flaw seen"]]),
  chosenOf("basis", "Checked by the rules of", [["", "allowable stress (NDS)"], ["eurocode", "Eurocode 5"]]),
];
const questions = {
  tree: { label: "a standing tree: how far would its log span?",
    intro: "Measure the girth 4 1/2 ft (1.37 m) above the ground, on the uphill side, over the bark.",
    fields: [speciesField, mixed("girth", "Girth at breast height, over bark", "31 in", "790 mm"),
      mixed("height", "Height of the tree, about", "55 ft", "17 m"),
      chosenOf("class", "Grew in the", [["", "not said"], ["forest", "forest"], ["open", "open"]]),
      mixed("cut", "Length of the log", "16 ft", "5 m"), mixed("from", "Log begins above the stump", "0 in", "0 m"),
      mixed("stump", "Stump, high", "1 ft", "300 mm")] },
  span: { label: "a felled log: how far may it span?", intro: "Measure its girth under the bark at both ends.",
    fields: [speciesField, mixed("tip", "Girth at the thin end", "22 in", "560 mm"), mixed("butt", "Girth at the butt", "24 in", "610 mm"),
      mixed("cut", "Length of the log", "10 ft", "3 m"), ...dutyFields] },
  spacing: { label: "a log: how far apart may posts stand under it?", intro: "Its girth under the bark at the thin end.",
    fields: [speciesField, mixed("tip", "Girth at the thin end", "22 in", "560 mm"), mixed("butt", "Girth at the butt", "24 in", "610 mm"), ...dutyFields] },
  log: { label: "a span: how thick a log, and which tree to look for?", intro: "Between the middles of the supports.",
    fields: [speciesField, mixed("span", "Span", "8 ft", "2.4 m"), mixed("height", "Height of the trees", "55 ft", "17 m"), ...dutyFields] },
};

Object.assign(questions, {
  card: { label: "a species: the card for the pocket", intro: "Smallest logs by span and use, on a card of 3 x 5 inches. It takes some seconds.",
    page: "card.html", fields: [speciesField, mixed("span", "First span", "4 ft", "1.2 m"), mixed("step", "From one to the next", "1 ft", "0.3 m"),
      ...dutyFields.filter((f) => f.name !== "use")] },
});

function questionFields() {
  const form = $("tree-form"), question = questions[$("which-question").value];
  $("tree-intro").textContent = question.intro + " What you leave empty takes its usual value.";
  const before = new Map([...new FormData(form)]);
  form.replaceChildren(...[...question.fields, unitsField].map((f) => {
    const id = "t-" + f.name;
    const control = f.options ? make("select", { id, name: f.name }, ...f.options.map(([value, text]) => make("option", { value, text })))
      : make("input", { id, name: f.name, type: "text", placeholder: "e.g. " + f.examples[host.metric ? 1 : 0], list: f.name === "species" ? "species" : undefined, "aria-describedby": id + "-f" });
    control.value = before.get(f.name) ?? (f === unitsField && host.metric ? "metric" : f.options?.[0][0] ?? "");
    return make("div", { class: "field" }, make("label", { for: id, text: f.label }), control, make("p", { class: "fault", id: id + "-f" }));
  }));
  $("tree-page").hidden = question.page === undefined;
  $("tree-use").hidden = true;
  $("tree-answer").replaceChildren();
}

// Options of the command line by the names that their fields have here.
function plain(text, question) {
  const label = (name) => [...question.fields, unitsField].find((f) => f.name === name)?.label ?? name;
  return text.replace(/^[a-z]+ needs --[a-z]+( \(or --[a-z]+\))?/, "this is needed")
    .replace(/^--[a-z]+: /, "").replace(/--[a-z]+ (?=")/g, "").replace(/--([a-z]+)/g, (_, name) => '"' + label(name) + '"')
    .replace('"bolewright species" lists', "the field lists");
}

// What the standing tree would give, of the column that may be counted on, in place of a log of the case. The
// name of the log tells everywhere, in the record too, that nobody has measured it.
let treeQuery = null;

function offerTree(query) {
  const logs = Array.isArray(state.deck?.logs) ? state.deck.logs.filter((log) => typeof log?.name === "string") : [];
  treeQuery = query !== null && $("which-question").value === "tree" && logs.length > 0 ? query : null;
  $("tree-log").replaceChildren(...logs.map((log) => make("option", { value: log.name, text: log.name })));
  $("tree-use").hidden = treeQuery === null;
}

async function takeTree() {
  const name = $("tree-log").value, k = state.deck.logs.findIndex((log) => log?.name === name);
  if (k < 0 || treeQuery === null) return;
  const deck = structuredClone(state.deck), estimated = name.endsWith(", estimated") ? name : name + ", estimated";
  try {
    const answer = await askJson("/ask/tree?" + treeQuery + "&as=file");
    fields.rename("/logs/" + k + "/name", name, estimated, deck);
    deck.logs[k] = { name: estimated, ...JSON.parse(answer.text).log_of_a_case };
  } catch (error) {
    $("tree-answer").replaceChildren(make("p", { class: "fault", text: error.message }));
    return;
  }
  use(deck);
  $("tree").close();
  fields.focus("/logs/" + k);
  say_("told", estimated + ": measure it when it is felled and peeled.");
}

async function askQuestion(asPage) {
  const form = $("tree-form"), question = questions[$("which-question").value];
  const query = new URLSearchParams([...new FormData(form)].filter(([, value]) => value.trim() !== ""));
  if (asPage) query.set("as", "file");
  $("tree-answer").replaceChildren(make("p", { text: "It is being worked out…" }));
  $("tree-use").hidden = true;
  for (const p of form.querySelectorAll(".fault")) p.textContent = "";
  try {
    const answer = await askJson("/ask/" + $("which-question").value + "?" + query);
    const rest = [];
    for (const f of answer.faults) {
      const name = /--([a-z]+)/.exec(f.message)?.[1];
      const place = name && $("t-" + name + "-f");
      const told = plain(words({ ...f, hint: f.hint && plain(f.hint, question) }), question);
      if (place) place.textContent = told; else rest.push(make("p", { class: "fault", text: told }));
    }
    if (asPage && answer.text) download(answer.text, question.page, "text/html");
    $("tree-answer").replaceChildren(...rest, answer.text && asPage ? make("p", { text: "Downloaded: print it." }) : answer.text ? make("pre", { tabindex: "0", text: answer.text }) : "");
    offerTree(asPage || !answer.text ? null : query);
    const wrong = form.querySelector(".fault:not(:empty)");
    (wrong?.parentElement ?? $("tree-answer")).scrollIntoView({ block: wrong ? "center" : "start" });
    for (const i of form.querySelectorAll("input")) i.toggleAttribute("aria-invalid", false);
    for (const p of form.querySelectorAll(".fault:not(:empty)")) $(p.id.slice(0, -2))?.setAttribute("aria-invalid", "true");
  } catch (error) {
    $("tree-answer").replaceChildren(make("p", { class: "fault", text: error.message }));
  }
}

// ---- the pile of logs ----

async function askPile(as) {
  const response = await fetch("/ask/match" + as, { method: "POST", headers: { "Content-Type": "application/x-bolewright-pair" },
    body: textOf(state.deck) + "\u001e" + $("pile-text").value });
  if (!response.ok) throw new Error("the program refuses: " + (await response.text()).trim());
  return response.json();
}

async function matchPile() {
  const box = $("pile-answer");
  box.replaceChildren(make("p", { text: "They are being matched: the whole deck is checked many times…" }));
  $("pile-use").hidden = true;
  try {
    const answer = await askPile("");
    box.replaceChildren(...answer.faults.map((f) => make("p", { class: "fault", text: (f.line > 0 ? "line " + f.line + ": " : "") + words(f) })),
      answer.text ? make("pre", { tabindex: "0", text: answer.text }) : "");
    $("pile-use").hidden = answer.text === "";
    box.scrollIntoView({ block: "start" });
  } catch (error) {
    box.replaceChildren(make("p", { class: "fault", text: error.message }));
  }
}

async function usePile() {
  try {
    const answer = await askPile("?as=file");
    if (answer.text === "") { $("pile-answer").replaceChildren(...answer.faults.map((f) => make("p", { class: "fault", text: words(f) }))); return; }
    use(JSON.parse(answer.text));
    $("pile").close();
  } catch (error) {
    $("pile-answer").replaceChildren(make("p", { class: "fault", text: error.message }));
  }
}

// ---- the page ----

async function sample(name) {
  take(await (await ask("/" + name)).text(), "");
  beganWith(name);
  $("verdict").focus();
}

// Local date, as the record takes it.
function today() {
  const d = new Date(), two = (n) => String(n).padStart(2, "0");
  return d.getFullYear() + "-" + two(d.getMonth() + 1) + "-" + two(d.getDate());
}

function wire() {
  $("do-new").onclick = () => { $("begin").hidden = false; $("begin-back").hidden = state.deck === null; $("begin-feet").focus(); window.scrollTo(0, 0); };
  $("begin-back").onclick = () => { $("begin").hidden = true; $("do-new").focus(); };
  $("do-open").onclick = $("begin-open").onclick = () => $("file").click();
  $("file").onchange = async () => {
    const file = $("file").files[0];
    if (!file) return;
    open_(await file.text(), file.name);
    $("file").value = "";
  };
  $("do-save").onclick = save;
  $("do-undo").onclick = undo;
  $("end-save").onclick = save;
  $("do-record").onclick = $("end-record").onclick = () => {
    $("record-fault").textContent = "";
    if ($("record-date").value === "") $("record-date").value = today();
    $("record").showModal();
  };
  /* Enter in the field presses the first button */
  $("record-form").addEventListener("submit", (event) => { if (event.submitter !== $("record-close")) { event.preventDefault(); record(); } });
  $("do-tree").onclick = () => { questionFields(); $("tree").showModal(); };
  $("do-pile").onclick = () => {
    if ($("pile-text").value === "") $("pile-text").value = "id,species,butt girth,tip girth,length,bark\n";
    $("pile").showModal();
  };
  $("pile-open").onclick = () => $("pile-file").click();
  $("pile-file").onchange = async () => {
    if ($("pile-file").files[0]) $("pile-text").value = await $("pile-file").files[0].text();
    $("pile-file").value = "";
  };
  $("pile-ask").onclick = matchPile;
  $("pile-use").onclick = usePile;
  $("which-question").onchange = questionFields;
  $("tree-form").addEventListener("submit", (event) => { event.preventDefault(); askQuestion(false); });
  $("tree-page").onclick = () => askQuestion(true);
  $("tree-take").onclick = takeTree;
  $("begin-feet").onclick = () => sample("start-feet.json");
  $("begin-metres").onclick = () => sample("start-metres.json");
  $("raw").addEventListener("toggle", () => { if ($("raw").open && $("raw-fault").hidden) $("raw-text").value = textOf(state.deck); });
  $("raw-take").onclick = () => { $("raw-fault").hidden = true; open_($("raw-text").value, state.name, true); };
  $("which-log").onchange = slidersFollow;
  $("drawing").addEventListener("click", pressed);
  $("drawing").addEventListener("keydown", pressed);
  document.addEventListener("change", mark);
  /* what is not checked, and the cautions, go on paper with the verdict */
  const folded = [$("not-checked"), $("cautions")];
  let before = [];
  window.addEventListener("beforeprint", () => { before = folded.map((d) => d.open); for (const d of folded) d.open = true; });
  window.addEventListener("afterprint", () => folded.forEach((d, k) => { d.open = before[k] ?? false; }));
  document.addEventListener("keydown", (event) => {
    if ((event.ctrlKey || event.metaKey) && event.key === "s" && state.deck !== null) { event.preventDefault(); save(); }
  });
}

async function start() {
  wire();
  const begin = await askJson("/start");
  host.words = begin.words;
  host.species = begin.species;
  $("species").replaceChildren(...begin.species.map((value) => make("option", { value })));
  $("about").textContent = "bolewright " + begin.version + ". " + begin.cautions[0];
  const known = begin.questions.filter((name) => Object.hasOwn(questions, name));
  $("do-tree").hidden = known.length === 0;
  $("do-pile").hidden = !begin.questions.includes("match");
  $("which-question").replaceChildren(...known.map((value) => make("option", { value, text: questions[value].label })));
  offer();
  if (begin.text !== null) await open_(begin.text, begin.name);
  else $("begin").hidden = false;
  document.body.dataset.ready = "yes";
}

start().catch(() => trouble("The program does not answer. Start it again (bolewright page) and load this page anew."));
