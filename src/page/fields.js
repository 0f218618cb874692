// fields.js - a case as form fields. The case is the only truth: a field shows one entry of it and
// writes that entry; entries without a field are kept.
import { caseShape, references, examples } from "./shapes.js";

const escapeToken = (key) => String(key).replaceAll("~", "~0").replaceAll("/", "~1");
const tokensOf = (pointer) => pointer.split("/").slice(1).map((t) => t.replaceAll("~1", "/").replaceAll("~0", "~"));
const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

export function read(deck, pointer) {
  let at = deck;
  for (const token of tokensOf(pointer)) {
    if (typeof at !== "object" || at === null || !Object.hasOwn(at, token)) return undefined;
    at = at[token];
  }
  return at;
}

// Objects on the way are made; an empty value takes the entry out, and objects that it leaves empty.
export function write(deck, pointer, value) {
  const tokens = tokensOf(pointer), way = [deck];
  for (const token of tokens.slice(0, -1)) {
    const at = way.at(-1);
    if (typeof at[token] !== "object" || at[token] === null) {
      if (value === undefined) return;
      put(at, token, {});
    }
    way.push(at[token]);
  }
  if (value !== undefined) {
    put(way.at(-1), tokens.at(-1), value);
    return;
  }
  for (let k = tokens.length - 1; k >= 0; k--) {
    if (Array.isArray(way[k])) return;
    delete way[k][tokens[k]];
    if (Object.keys(way[k]).length > 0) return;
  }
}

// "__proto__" is a key like any other in a file.
function put(object, key, value) {
  Object.defineProperty(object, key, { value, writable: true, enumerable: true, configurable: true });
}

export function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name === "text") element.textContent = value;
    else if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value !== undefined) element.setAttribute(name, value);
  }
  element.append(...children);
  return element;
}

// A text as it stands in the case: what is not text (a list of two diameters, a share) as JSON.
const shown = (value) => value === undefined ? "" : typeof value === "string" ? value : JSON.stringify(value);

function typed(text, before) {
  if (text === "") return undefined;
  if (before !== undefined && typeof before !== "string") {
    try { return JSON.parse(text); } catch { return text; }
  }
  return text;
}

const asNumber = (text) => text === "" ? undefined : /^-?(0|[1-9]\d*)(\.\d+)?$/.test(text) ? Number(text) : text;

// Keys of the file as their fields call them, for hints; a key that several fields have stays as it is.
const labels = new Map();
(function name(fields) {
  for (const f of fields) {
    for (const [key, label] of f.keys ?? (f.key === undefined ? [] : [[f.key, f.label]])) {
      const short = (f.keys ? f.label + ", " + label : label).replace(/ \(.*\)$/, "");
      labels.set(key, labels.has(key) && labels.get(key) !== short ? key : short);
    }
    if (f.shape) name([...f.shape.fields, ...(f.shape.more ?? [])]);
  }
})(caseShape.fields.flatMap((s) => s.fields));

let serial = 0;
const manyItems = 5; /* more than these begin folded */

export class Fields {
  // host: deck, metric, words (choices that the program lists), changed(), mark() (a step to go back to),
  // along(after) (how bents follow on each other, and a place for one more), say(words)
  constructor(form, host) {
    this.form = form;
    this.host = host;
    form.addEventListener("submit", (event) => event.preventDefault());
  }

  get deck() { return this.host.deck; }

  // ---- building ----

  build() {
    const narrow = this.narrow = window.matchMedia("(max-width: 40rem)").matches; /* a phone: headings first */
    const before = new Map([...this.form.querySelectorAll("details[data-id]")].map((d) => [d.dataset.id, d.open]));
    const first = this.form.childElementCount === 0;
    this.building = true;
    this.places = new Map();   // pointer -> element that shows its faults
    this.showers = [];         // bring fields up to the case
    this.heads = [];           // and what stands over the items of lists
    this.form.replaceChildren();
    for (const section of caseShape.fields) {
      const body = make("div", { class: "body" });
      const details = make("details", { class: "section", "data-id": section.id },
        make("summary", {}, make("h3", { text: section.head })), body);
      details.open = first ? !section.closed && !narrow : before.get(section.id) ?? true;
      const line = make("div", { class: "line" });
      body.append(line);
      for (const field of section.fields) this.field(field.kind === "object" || field.kind === "list" ? body : line, field, "");
      this.form.append(details);
    }
    this.restOf(this.form, "", caseShape.fields.flatMap((s) => s.fields), "Further entries of the case");
    for (const d of this.form.querySelectorAll("details[data-id]")) d.open = before.get(d.dataset.id) ?? d.open;
    this.building = false;
    this.refresh();
    if (this.faults) this.showFaults(this.faults);
  }

  // Whether the field belongs there as the case is now: see shapes.js.
  applies(field, base) {
    const object = read(this.deck, base), above = read(this.deck, base.slice(0, Math.max(0, base.lastIndexOf("/"))));
    const keys = field.keys ? field.keys.map(([key]) => key) : [field.key];
    if (field.when === undefined || field.when(isObject(object) ? object : {}, isObject(above) ? above : {})) return true;
    return !field.exact && isObject(object) && keys.some((key) => Object.hasOwn(object, key));
  }

  field(parent, field, base) {
    if (!this.applies(field, base)) return;
    const pointer = field.key === undefined ? base : base + "/" + escapeToken(field.key);
    if (field.kind === "object") this.object(parent, field, pointer);
    else if (field.kind === "list") this.list(parent, field, pointer);
    else if (field.kind === "either") this.either(parent, field, base);
    else if (field.kind === "which") this.which(parent, field, base);
    else this.single(parent, field, pointer);
  }

  frame(parent, field, pointers) {
    const id = "f" + ++serial;
    const fault = make("p", { class: "fault", id: id + "-f" });
    const label = make("label", { for: id, text: field.label });
    const box = make("div", { class: "field " + field.kind + (field.wide ? " wide" : "") }, label, fault);
    if (field.help) label.after(make("small", { class: "help", id: id + "-h", text: field.help }));
    for (const pointer of pointers) this.places.set(pointer, box);
    parent.append(box);
    return { id, fault, label, described: id + "-f" + (field.help ? " " + id + "-h" : "") };
  }

  single(parent, field, pointer) {
    const { id, fault, label, described } = this.frame(parent, field, [pointer]);
    const control = this.control(field, pointer, { id, "aria-describedby": described, name: pointer });
    if (field.kind === "flag") label.before(control);
    else fault.before(control);
    this.showers.push(() => this.show(control, field, read(this.deck, pointer)));
  }

  // What else a choice changes; the form follows it.
  follow(field, pointer) {
    const base = pointer.slice(0, pointer.lastIndexOf("/"));
    const above = base.slice(0, Math.max(0, base.lastIndexOf("/")));
    field.then(read(this.deck, base) ?? {}, read(this.deck, above) ?? {});
    this.rebuilt(pointer, "nearest");
  }

  control(field, pointer, common) {
    const put_ = (value) => {
      write(this.deck, pointer, value);
      if (field.then && field.kind !== "number") this.follow(field, pointer);
      else this.host.changed();
    };
    if (field.kind === "flag") {
      return make("input", { ...common, type: "checkbox", onchange: (e) => put_(e.target.checked) });
    }
    if (field.kind === "choice" || field.kind === "ref") {
      return make("select", { ...common, onchange: (e) => put_(e.target.selectedOptions[0]?.value_) });
    }
    const isName = field.key === "name";
    const input = make("input", { ...common, type: "text", spellcheck: "false", autocapitalize: "off",
      list: field.kind === "species" ? "species" : undefined });
    if (field.then) input.addEventListener("change", () => this.follow(field, pointer));
    input.addEventListener(isName ? "change" : "input", () => {
      const before = read(this.deck, pointer);
      const value = field.kind === "number" ? asNumber(input.value.trim()) : typed(input.value, before);
      if (isName) this.rename(pointer, before, value);
      put_(value);
      if (isName || pointer.startsWith("/every_bent/")) this.refresh(); /* shown in other fields too */
    });
    return input;
  }

  // One measure that may be given as a girth or as a diameter: the key is chosen beside it.
  either(parent, field, base) {
    const pointers = field.keys.map(([key]) => base + "/" + key);
    const { id, fault, described } = this.frame(parent, field, pointers);
    const used = () => Math.max(0, pointers.findIndex((p) => read(this.deck, p) !== undefined));
    let at = used();
    const input = make("input", { id, type: "text", name: pointers[0], "aria-describedby": described, spellcheck: "false" });
    const which = make("select", { "aria-label": field.label + ", measured as" },
      ...field.keys.map(([, label], k) => make("option", { value: k, text: label })));
    input.addEventListener("input", () => {
      write(this.deck, pointers[at], typed(input.value, read(this.deck, pointers[at])));
      this.host.changed();
    });
    which.addEventListener("change", () => {
      const value = read(this.deck, pointers[at]);
      this.exchange(base, field.keys[at][0], field.keys[Number(which.value)][0]);
      at = Number(which.value);
      if (value !== undefined) this.host.changed();
    });
    fault.before(make("span", { class: "pair-of" }, input, which));
    this.showers.push(() => {
      if (pointers.some((p) => read(this.deck, p) !== undefined)) at = used();
      which.value = String(at);
      input.name = pointers[at];
      this.show(input, { ...field, kind: "measure", of: "length" }, read(this.deck, pointers[at]));
    });
  }

  // A name of one of several lists: the key is chosen first, the name then.
  which(parent, field, base) {
    const pointers = field.keys.map(([key]) => base + "/" + key);
    const { id, fault, described } = this.frame(parent, field, pointers);
    const at = Math.max(0, pointers.findIndex((p) => read(this.deck, p) !== undefined));
    const [, , to] = field.keys[at];
    const key = make("select", { id, "aria-describedby": described },
      ...field.keys.map(([, text], k) => make("option", { value: k, text })));
    const name = make("select", { name: pointers[at], "aria-label": field.label + ": which" });
    key.value = String(at);
    key.addEventListener("change", () => {
      const chosen = field.keys[Number(key.value)];
      for (const p of pointers) write(this.deck, p, undefined);
      field.then?.(read(this.deck, base) ?? {});
      const first = (Array.isArray(this.deck[chosen[2]]) ? this.deck[chosen[2]] : []).map((item) => item?.name).find((n) => typeof n === "string");
      write(this.deck, base + "/" + chosen[0], first ?? "");
      this.rebuilt(base + "/" + chosen[0], "nearest");
    });
    name.addEventListener("change", () => { write(this.deck, pointers[at], name.selectedOptions[0]?.value_); this.host.changed(); });
    fault.before(make("span", { class: "pair-of" }, key, name));
    this.showers.push(() => this.show(name, { kind: "ref", to, blank: "choose" }, read(this.deck, pointers[at])));
  }

  // The same value under another key, at the same place of the object.
  exchange(base, from, to) {
    const object = read(this.deck, base);
    if (!isObject(object) || !Object.hasOwn(object, from)) return;
    const entries = Object.entries(object).map(([key, value]) => [key === from ? to : key, value]);
    for (const key of Object.keys(object)) delete object[key];
    for (const [key, value] of entries) put(object, key, value);
  }

  object(parent, field, pointer) {
    let body = parent;
    if (!field.bare) {
      body = make("div", { class: "body", role: "group", "aria-label": field.label });
      const details = make("details", { class: "group", "data-id": pointer }, make("summary", { text: field.label }), body);
      details.open = field.open === true || (read(this.deck, pointer) !== undefined && !(field.key === "grade"));
      parent.append(details);
    }
    const fault = make("p", { class: "fault" });
    body.append(fault);
    this.places.set(pointer, body);
    if (field.nullable) this.nullable(body, field, pointer);
    const value = read(this.deck, pointer);
    if (value !== undefined && value !== null && !isObject(value)) this.whole(body, pointer);
    else this.shape(body, field.shape, pointer);
  }

  nullable(body, field, pointer) {
    const id = "f" + ++serial;
    let kept;
    const box = make("input", { type: "checkbox", id, onchange: () => {
      if (!box.checked) kept = read(this.deck, pointer);
      const usual = { mass: this.host.metric ? "115 kg" : "254 lb", factor: 3 };
      write(this.deck, pointer, box.checked ? kept ?? usual : null);
      this.host.changed();
      this.refresh();
    } });
    body.append(make("div", { class: "field flag" }, box, make("label", { for: id, text: "crosses it" })));
    this.showers.push(() => {
      box.checked = read(this.deck, pointer) !== null;
      for (const other of body.querySelectorAll("input, select, textarea")) if (other !== box) other.disabled = !box.checked;
    });
  }

  shape(body, shape, pointer) {
    const all = [...shape.fields, ...(shape.more ?? [])];
    const line = make("div", { class: "line" });
    body.append(line);
    for (const field of shape.fields) this.field(field.kind === "object" || field.kind === "list" ? body : line, field, pointer);
    if (shape.more) {
      const inner = make("div", { class: "body" });
      const details = make("details", { class: "more", "data-id": pointer + "#more" }, make("summary", { text: "More" }), inner);
      details.open = shape.more.some((f) => this.applies(f, pointer) && (f.keys ?? [[f.key]]).some(([key]) => read(this.deck, pointer + "/" + key) !== undefined));
      const moreLine = make("div", { class: "line" });
      inner.append(moreLine);
      for (const field of shape.more) this.field(field.kind === "object" || field.kind === "list" ? inner : moreLine, field, pointer);
      this.restOf(inner, pointer, all, "Further entries");
      body.append(details);
    } else {
      this.restOf(body, pointer, all, "Further entries");
    }
  }

  // Entries that no field shows, as JSON.
  restOf(parent, pointer, fields, label) {
    const known = new Set(fields.flatMap((f) => f.keys ? f.keys.map(([key]) => key) : [f.key]));
    if (pointer === "") known.add("format");
    const unknown = () => {
      const object = read(this.deck, pointer);
      return isObject(object) ? Object.entries(object).filter(([key]) => !known.has(key)) : [];
    };
    const id = "f" + ++serial;
    const fault = make("p", { class: "fault", id: id + "-f" });
    const text = make("textarea", { id, rows: "3", spellcheck: "false", "aria-describedby": id + "-f" });
    const details = make("details", { class: "rest", "data-id": pointer + "#rest" },
      make("summary", { text: label }), make("label", { for: id, class: "soft", text: "As in the file (JSON): { \"key\": \"value\" }" }), text, fault);
    text.addEventListener("input", () => {
      let entries;
      try {
        const value = text.value.trim() === "" ? {} : JSON.parse(text.value);
        if (!isObject(value)) throw new Error("{ and } must stand around the entries");
        entries = Object.entries(value);
      } catch (error) {
        fault.textContent = "not taken: " + error.message;
        return;
      }
      fault.textContent = "";
      for (const [key] of unknown()) write(this.deck, pointer + "/" + escapeToken(key), undefined);
      for (const [key, value] of entries) if (!known.has(key)) write(this.deck, pointer + "/" + escapeToken(key), value);
      this.host.changed();
    });
    parent.append(details);
    this.showers.push(() => {
      const entries = unknown();
      for (const [key] of entries) this.places.set(pointer + "/" + escapeToken(key), details);
      if (document.activeElement !== text) text.value = entries.length > 0 ? JSON.stringify(Object.fromEntries(entries), null, 1) : "";
      details.classList.toggle("used", entries.length > 0);
      details.hidden = entries.length === 0 && !details.open;
    });
    if (unknown().length > 0) details.open = true;
  }

  // A value of another kind than its field expects.
  whole(body, pointer) {
    const id = "f" + ++serial;
    const fault = make("p", { class: "fault", id: id + "-f" });
    const text = make("textarea", { id, rows: "2", "aria-label": "As in the file (JSON)", "aria-describedby": id + "-f" });
    text.value = JSON.stringify(read(this.deck, pointer));
    text.addEventListener("input", () => {
      try { write(this.deck, pointer, JSON.parse(text.value)); fault.textContent = ""; this.host.changed(); }
      catch (error) { fault.textContent = "not taken: " + error.message; }
    });
    body.append(text, fault);
  }

  // ---- lists ----

  list(parent, field, pointer) {
    const box = make("div", { class: "list" });
    if (!field.bare) box.append(make("h4", { text: field.label }));
    const items = make("div", { class: "items" });
    const fault = make("p", { class: "fault" });
    const add = make("button", { type: "button", text: field.text ?? "Add a " + field.one, onclick: () => this.add(field, pointer) });
    box.append(fault, items, ...this.toldAt(pointer), add);
    box.dataset.list = pointer;
    parent.append(box);
    this.places.set(pointer, box);
    const value = read(this.deck, pointer);
    if (value !== undefined && !Array.isArray(value)) { this.whole(box, pointer); add.disabled = true; return; }
    (value ?? []).forEach((item, k) => this.item(items, field, pointer, k, value.length));
  }

  item(items, field, pointer, k, count) {
    const here = pointer + "/" + k;
    const name = make("span", { class: "name" }), brief = make("span", { class: "brief" }), share = make("span", { class: "share" });
    const body = make("div", { class: "body", role: "group" });
    const remove = make("button", { type: "button", class: "small", text: "Remove", onclick: () => this.remove(field, pointer, k) });
    const copy = field.after ? make("button", { type: "button", class: "small", text: field.after, onclick: () => this.add(field, pointer, k) })
      : make("button", { type: "button", class: "small", text: "Copy", onclick: () => this.copy(field, pointer, k) });
    const details = make("details", { class: "item", "data-id": here }, make("summary", {}, name, " ", brief, share), body);
    let built = false;
    const build = () => {
      if (built || !details.open) return;
      built = true;
      const value = read(this.deck, here);
      const from = this.showers.length, above = this.heads.length;
      body.append(make("p", { class: "fault" }));
      if (isObject(value)) this.shape(body, field.shape, here);
      else this.whole(body, here);
      body.append(...this.toldAt(here), make("p", { class: "tools" }, ...(field.single ? [] : [copy]), remove));
      for (const show of [...this.showers.slice(from), ...this.heads.slice(above)]) show();
      if (this.faults && !this.building) this.showFaults(this.faults);
    };
    details.addEventListener("toggle", build);
    this.places.set(here, details);
    this.heads.push(() => {
      const value = read(this.deck, here);
      const title = !isObject(value) ? "" : field.title ? shown(field.title(value)) : field.shape.name ? shown(value.name) : "";
      name.textContent = title || field.one + " " + (k + 1);
      brief.textContent = isObject(value) && field.brief ? field.brief(value) : "";
      body.setAttribute("aria-label", field.one + " " + name.textContent);
      remove.setAttribute("aria-label", "Remove " + field.one + " " + name.textContent);
      copy.setAttribute("aria-label", field.after ? field.after + ": " + name.textContent : "Copy " + field.one + " " + name.textContent);
    });
    items.append(details);
    details.open = count <= manyItems && !field.closed && !this.narrow;
    build();
  }

  // Items of a list in the order that they have in the deck, as indices; null: the list's own.
  async along(field, pointer, after) {
    const list = read(this.deck, pointer), answer = field.along ? await this.host.along(after) : null;
    const whole = answer !== null && answer.order.length === (list?.length ?? 0);
    return { place: answer?.place ?? "", order: whole ? answer.order : (list ?? []).map((_, k) => k) };
  }

  // One at a time: the program may be asked before the case changes.
  async alone(work) {
    if (this.busy) return;
    this.busy = true;
    try { await work(); } finally { this.busy = false; }
  }

  // Behind an item, or at the end.
  add(field, pointer, behind) {
    return this.alone(async () => {
      const { place, order } = await this.along(field, pointer, behind);
      if (!Array.isArray(read(this.deck, pointer))) write(this.deck, pointer, []);
      const list = read(this.deck, pointer), after = behind ?? order.at(-1) ?? -1, like = list[after];
      const item = field.fresh(this.deck, this.host.metric, like, after === (order.at(-1) ?? -1));
      if (place !== "") item[field.cursor] = place;
      const names = order.map((k) => list[k]?.name);
      names.splice(order.indexOf(after) + 1, 0, item.name);
      list.splice(after + 1, 0, item);
      const here = pointer + "/" + (after + 1);
      this.tell(here, field.grown?.(this.deck, item, names, like));
      this.rebuilt(here + (field.cursor ? "/" + field.cursor : ""));
      if (field.cursor) document.activeElement?.select?.();
    });
  }

  copy(field, pointer, k) {
    const list = read(this.deck, pointer);
    const twin = structuredClone(list[k]);
    if (typeof twin.name === "string") twin.name += " copy";
    list.splice(k + 1, 0, twin);
    this.tell("", undefined);
    this.rebuilt(pointer + "/" + (k + 1));
  }

  remove(field, pointer, k) {
    return this.alone(async () => {
      const { order } = await this.along(field, pointer);
      const list = read(this.deck, pointer), names = order.map((n) => list[n]?.name);
      const [gone] = list.splice(k, 1);
      this.tell(pointer, { words: field.gone?.(this.deck, gone, names) ?? "" });
      if (list.length === 0 && field.optional) write(this.deck, pointer, undefined);
      this.rebuilt(pointer);
    });
  }

  // What a change brought along stands where it was made, with another way to do it if there is one.
  tell(pointer, told) {
    this.told = told && told.words !== "" ? { pointer, ...told } : null;
    if (this.told) this.host.say(this.told.words);
  }

  toldAt(pointer) {
    const told = this.told;
    if (!told || told.pointer !== pointer) return [];
    const other = told.label === undefined ? [] : [" ", make("button", { type: "button", class: "small", text: told.label, onclick: () => {
      this.tell(pointer, { words: told.apply() });
      this.rebuilt(pointer);
    } })];
    return [make("p", { class: "told" }, told.words, ...other)];
  }

  rebuilt(focus, block) {
    this.host.changed();
    this.host.mark();
    this.build();
    this.focus(focus, block);
  }

  // ---- showing ----

  options(field, current) {
    const listed = typeof field.options === "string" ? this.host.words[field.options] ?? [] : field.options ?? [];
    const known = field.kind === "ref"
      ? (Array.isArray(this.deck[field.to]) ? this.deck[field.to] : []).map((item) => item?.name).filter((n) => typeof n === "string").map((n) => [n, n])
      : listed;
    const blank = field.blank ?? (field.kind === "ref" ? "–" : "not said");
    /* what counts if nothing is said is not listed twice */
    const all = field.always ? [...known]
      : current === undefined ? [[undefined, blank], ...known.filter(([, label]) => label !== blank)]
        : [...(known.some(([, label]) => label === blank) ? [] : [[undefined, blank]]), ...known];
    if (current !== undefined && !all.some(([value]) => value === current)) all.push([current, shown(current)]);
    return all;
  }

  show(control, field, value) {
    if (field.kind === "flag") { control.checked = value === true; return; }
    if (field.kind === "choice" || field.kind === "ref") {
      const all = this.options(field, value);
      control.replaceChildren(...all.map(([v, label]) => {
        const option = make("option", { text: label });
        option.value_ = v;
        option.selected = v === value;
        return option;
      }));
      return;
    }
    const example = field.example ?? examples[field.of];
    const shared = /^\/bents\/\d+(\/deck_height)$/.exec(control.name);
    const above = shared ? read(this.deck, "/every_bent" + shared[1]) : undefined;
    if (above !== undefined) control.placeholder = shown(above) + ", as all";
    else if (example) control.placeholder = "e.g. " + example[this.host.metric ? 1 : 0];
    if (document.activeElement !== control || control.dataset.forced) control.value = shown(value);
  }

  refresh() {
    for (const show of this.showers) show();
    this.headings();
  }

  headings() { for (const head of this.heads) head(); }

  rename(pointer, before, after, deck = this.deck) {
    const kind = tokensOf(pointer)[0];
    const names = (deck[kind] ?? []).map((item) => item?.name);
    if (typeof before !== "string" || typeof after !== "string" || names.includes(after) || names.filter((n) => n === before).length > 1) return;
    const walk = (value, inJoints) => {
      if (typeof value !== "object" || value === null) return;
      for (const [key, inner] of Object.entries(value)) {
        const of = key === "at" && inJoints ? "bents" : references[key];
        const half = kind === "braces" && /^(.*)( [12])$/.exec(inner); /* one of a crossed pair */
        if (of === kind && inner === before) value[key] = after;
        else if (of === kind && half && half[1] === before) value[key] = after + half[2];
        else walk(inner, inJoints || inner === deck.joints);
      }
    };
    walk(deck, false);
  }

  // ---- faults and shares ----

  placeOf(path) {
    for (let p = path ?? ""; p !== ""; p = p.slice(0, p.lastIndexOf("/"))) if (this.places.has(p)) return this.places.get(p);
    return null;
  }

  // "stringer log, Butt": what a person calls the entry.
  labelOf(path) {
    const place = this.placeOf(path);
    if (place === null) return path;
    const parts = [];
    for (let d = place.closest("details.item"); d !== null; d = d.parentElement.closest("details.item")) {
      parts.unshift(d.querySelector(":scope > summary > .name").textContent);
    }
    const label = place.classList.contains("field") ? place.querySelector("label").textContent : "";
    if (label) parts.push(label);
    return parts.length > 0 ? parts.join(", ") : place.closest("details.section")?.querySelector("h3").textContent ?? path;
  }

  // What is missing is told at its field, where the page has one, and species by names that are listed.
  plain(fault) {
    const told = this.atField(fault), bareNumber = /^"([\d. \/]+)" has no unit/.exec(bare(told))?.[1];
    const hint = told.hint?.replace(/"([a-z_]+)"/g, (all, key) => labels.has(key) ? '"' + labels.get(key) + '"' : all);
    if (bareNumber === undefined || !/^write it as "\d+ ft/.test(hint)) return { ...told, hint };
    const [small, large] = this.host.metric ? ["mm", "m"] : ["in", "ft"];
    return { ...told, hint: `${hint}; this, perhaps as "${bareNumber.trim()} ${small}" or "${bareNumber.trim()} ${large}"` };
  }

  atField(fault) {
    const message = bare(fault);
    if (fault.id === "key.missing") {
      const key = /^the key "([^"]+)" is missing$/.exec(message)?.[1] ?? /^neither "([^"]+)" nor "[^"]+" is given$/.exec(message)?.[1];
      const path = (fault.path ?? "") + "/" + escapeToken(key ?? "");
      return key !== undefined && this.places.has(path) ? { ...fault, path, message: "this is needed", hint: undefined } : fault;
    }
    if (fault.id === "post.hole") {
      const path = message.includes('"hole_depth"') ? fault.path + "/hole_depth" : "/ground/soil";
      return this.places.has(path) ? { ...fault, path, message: "this is needed for a post in a hole", hint: "or say under More of the post that it stands on a pad or stone" } : fault;
    }
    if (fault.id !== "species.unknown") return fault;
    const written = String(read(this.deck, fault.path) ?? "").trim().toLowerCase();
    const like = written.length < 3 ? [] : this.host.species.filter((name) => name.toLowerCase().includes(written));
    return like.length === 0 ? fault : { ...fault, hint: "choose one: " + like.slice(0, 6).join(", ") + (like.length > 6 ? " ..." : "") };
  }

  // The same words at one place are said once.
  plainAll(faults) {
    const seen = new Set();
    return faults.map((f) => this.plain(f)).filter((f) => {
      const key = f.path + " " + f.message;
      return !seen.has(key) && seen.add(key);
    });
  }

  showFaults(faults) {
    this.faults = faults;
    for (const p of this.form.querySelectorAll(".fault")) if (!p.textContent.startsWith("not taken")) p.textContent = "";
    for (const e of this.form.querySelectorAll("[aria-invalid]")) e.removeAttribute("aria-invalid");
    for (const e of this.form.querySelectorAll(".marked, .warned")) e.classList.remove("marked", "warned");
    for (const fault of this.plainAll(faults)) {
      const place = this.placeOf(fault.path);
      if (place === null) continue;
      const at = place.querySelector(":scope > .fault, :scope > .body > .fault") ?? place.querySelector(".fault");
      if (at) at.append(at.textContent ? make("br") : "", (fault.severity === "error" ? "" : fault.severity + ": ") + words(fault));
      if (fault.severity === "error" && place.classList.contains("field")) place.querySelector("input, select")?.setAttribute("aria-invalid", "true");
      for (let d = place.closest("details"); d !== null; d = d.parentElement?.closest("details") ?? null) d.classList.add(fault.severity === "error" ? "marked" : "warned");
    }
  }

  // What the result says of the members stands beside the entries that they come from.
  showShares(members) {
    const worst = new Map();
    for (const m of members) {
      for (const pointer of [m.pointer, m.log]) {
        if (pointer && (!worst.has(pointer) || weight(m) > weight(worst.get(pointer)))) worst.set(pointer, m);
      }
    }
    for (const details of this.form.querySelectorAll("details.item")) {
      const share = details.querySelector(":scope > summary > .share"), m = worst.get(details.dataset.id);
      share.textContent = m ? m.share : "";
      share.className = "share" + (m && m.verdict !== "within limits" ? " bad" : "");
    }
  }

  // Opens what hides the entry and puts the cursor there.
  focus(path, block = "center") {
    let place = this.placeOf(path);
    if (place === null) return;
    for (let tries = 0; tries < 6; tries++) {
      for (let d = place; d !== null; d = d.parentElement?.closest("details") ?? null) {
        if (d.tagName === "DETAILS" && !d.open) { d.open = true; d.dispatchEvent(new Event("toggle")); }
      }
      const better = this.placeOf(path);
      if (better === place) break;
      place = better;
    }
    const target = place.matches("[data-list]") ? place.querySelector(":scope > button") : place.querySelector("input, select, textarea, summary");
    target?.focus();
    place.scrollIntoView({ block });
    this.here(target);
  }

  // Shown as having the cursor even where a browser would not, as after a click, until it leaves.
  here(target) {
    for (const e of this.form.querySelectorAll(".here")) e.classList.remove("here");
    target?.classList.add("here");
    target?.addEventListener("blur", () => target.classList.remove("here"), { once: true });
  }
}

// What cannot be said comes before all, what was not checked after all.
const weight = (m) => m.used ?? (m.check === null ? -1 : Infinity);

const bare = (fault) => fault.path && fault.message.startsWith(fault.path + ": ") ? fault.message.slice(fault.path.length + 2) : fault.message;

// A fault in the words of the command line.
export function words(fault) {
  const parts = [bare(fault)];
  if (fault.allowed) parts.push("allowed: " + fault.allowed);
  if (fault.hint) parts.push("hint: " + fault.hint);
  return parts.join(" · ");
}
