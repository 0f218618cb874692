// frame.js - what else of a case changes when a bent or a row comes or goes: stringers, posts, braces
// and joints. Each function changes the case and returns what it did, in words for the person.
//
// along: names of the bents as they follow on each other; the program says how.

const listOf = (deck, key) => (Array.isArray(deck[key]) ? deck[key].filter((item) => typeof item === "object" && item !== null) : []);
const isText = (value) => typeof value === "string";

// "B" follows "A", "L3" "L2"; never a name that is there.
export function nextName(name, list, one) {
  const taken = new Set((Array.isArray(list) ? list : []).map((item) => item?.name));
  const [, stem, number] = /^(.*?)([0-9]*)$/.exec(isText(name) ? name : one + " ");
  if (number === "" && /^[A-Ya-y]$/.test(stem)) {
    const next = String.fromCharCode(stem.charCodeAt(0) + 1);
    if (!taken.has(next)) return next;
  }
  let k = number === "" ? taken.size + 1 : Number(number) + 1;
  const lead = number === "" && stem !== "" && !stem.endsWith(" ") ? stem + " " : stem;
  while (taken.has(lead + k)) k++;
  return lead + k;
}

// Behind "B" and before "C": "B2"; behind "B7": "B7b".
export function nameBetween(name, list) {
  const taken = new Set((Array.isArray(list) ? list : []).map((item) => item?.name));
  const stem = isText(name) && name !== "" ? name : "bent ";
  for (let k = 2; ; k++) {
    const tried = stem + (/[0-9]$/.test(stem) ? k <= 26 ? String.fromCharCode(96 + k) : "-" + k : k);
    if (!taken.has(tried)) return tried;
  }
}

function listing(items, one) {
  const names = items.map((item) => item?.name ?? item).filter(isText);
  if (names.length !== items.length || names.length > 6) return items.length + " " + one + (items.length > 1 ? "s" : "");
  return one + (names.length > 1 ? "s " : " ") + names.join(", ").replace(/, ([^,]*)$/, " and $1");
}

const capital = (text) => text[0].toUpperCase() + text.slice(1);
const goes = (items, one, rest) => listing(items, one) + (items.length > 1 ? " go" : " goes") + rest;

// Takes out what is gone of a list, and the list with the last of it where a case may do without.
function keepOnly(deck, key, stays) {
  if (!Array.isArray(deck[key])) return [];
  const gone = deck[key].filter((item) => !stays(item));
  if (gone.length === 0) return [];
  const rest = deck[key].filter((item) => stays(item));
  if (rest.length === 0 && (key === "braces" || key === "joints")) delete deck[key];
  else deck[key] = rest;
  return gone;
}

// Joints of what is no longer there.
function dropJoints(deck, stringers, braces) {
  const names = new Set(stringers.map((s) => s?.name).filter(isText));
  const ofBraces = new Set(braces.flatMap((b) => (isText(b?.name) ? [b.name, b.name + " 1", b.name + " 2"] : [])));
  keepOnly(deck, "joints", (j) => !names.has(j?.stringer) && !ofBraces.has(j?.brace));
}

const ends = ["from", "to"];
const touches = (s, bent) => s.from === bent || s.to === bent;

// The end of a stringer at one bent is at another from now on, with its joint.
function moveEnd(deck, stringer, from, to) {
  for (const key of [...ends, "butt_at"]) if (stringer[key] === from) stringer[key] = to;
  for (const j of listOf(deck, "joints")) if (isText(stringer.name) && j.stringer === stringer.name && j.at === from) j.at = to;
}

// The stringers that ended there run on to the next bent, and those beyond begin there; at the end of a
// row they end at the bent before. What has no length then goes.
export function bentGone(deck, name, along) {
  if (!isText(name) || along.indexOf(name) !== along.lastIndexOf(name) || along.indexOf(name) < 0) return "";
  const at = along.indexOf(name), rank = new Map(along.map((n, k) => [n, k]));
  const list = listOf(deck, "stringers").filter((s) => touches(s, name));
  const far = (s) => rank.get(s.from === name ? s.to : s.from) ?? at;
  const moved = [], gone = [];
  for (const row of new Set(list.map((s) => s.row))) {
    const before = list.filter((s) => s.row === row && far(s) < at), after = list.filter((s) => s.row === row && far(s) > at);
    const to = after.length > 0 ? along[at + 1] : along[at - 1];
    for (const s of [...before, ...after]) {
      if (touches(s, to)) gone.push(s);
      else { moveEnd(deck, s, name, to); moved.push(s); }
    }
  }
  keepOnly(deck, "stringers", (s) => !gone.includes(s));
  const braces = keepOnly(deck, "braces", (b) => ![b?.bent, b?.from?.bent, b?.to?.bent].includes(name));
  dropJoints(deck, gone, braces);
  keepOnly(deck, "joints", (j) => j?.at !== name);
  const told = [];
  const one = (s) => `${s.from} to ${s.to}`, ways = new Set(moved.map(one));
  if (moved.length > 0) told.push(capital(listing(moved, "stringer")) + (moved.length > 1 ? " now lie" : " now lies")
    + (ways.size === 1 ? " from " + one(moved[0]) : " to the next bent"));
  if (gone.length > 0) told.push(goes(gone, "stringer", " with bent " + name));
  if (braces.length > 0) told.push(goes(braces, "brace", " with bent " + name));
  return told.length > 0 ? capital(told.join("; ")) + ". Undo takes it back." : "";
}

// At the end of the deck the last bay is repeated; in a bay the stringers run on over the new bent.
// Returns the words, and for a bay another way to do it.
export function bentAdded(deck, name, along) {
  const at = along.indexOf(name), rank = new Map(along.map((n, k) => [n, k]));
  if (at <= 0 || !Array.isArray(deck.stringers)) return { words: "" };
  if (at === along.length - 1) return { words: bayAdded(deck, name, along[at - 1]) };
  const low = (s) => Math.min(rank.get(s.from), rank.get(s.to)), high = (s) => Math.max(rank.get(s.from), rank.get(s.to));
  const over = listOf(deck, "stringers").filter((s) => low(s) < at && high(s) > at);
  if (over.length === 0) return { words: "" };
  return { words: capital(listing(over, "stringer")) + (over.length > 1 ? " run" : " runs") + " on over bent " + name + ", in one piece.",
    label: over.length > 1 ? "Cut them there" : "Cut it there",
    apply: () => capital(over.map((s) => cut(deck, s, name, along[high(s)], along[low(s)])).join(", ")) + "." };
}

function bayAdded(deck, name, last) {
  const added = listOf(deck, "stringers").filter((s) => touches(s, last) && !touches(s, name)).map((s) => {
    const { butt_at: _, ...next } = { ...s, name: nextName(s.name, deck.stringers, "stringer"), from: last, to: name };
    deck.stringers.push(next);
    return next;
  });
  return added.length === 0 ? "" : capital(listing(added, "stringer")) + (added.length > 1 ? " were" : " was") + ` added, from ${last} to ${name}.`;
}

// Two logs in place of one: the first keeps its name, and both keep the way that the butt lies.
function cut(deck, s, name, high, low) {
  const twin = { ...s, name: nextName(s.name, deck.stringers, "stringer") };
  const joints = listOf(deck, "joints").filter((j) => isText(s.name) && j.stringer === s.name);
  for (const key of ends) if (s[key] === high) s[key] = name;
  for (const key of ends) if (twin[key] === low) twin[key] = name;
  if (s.butt_at === high) s.butt_at = name;
  if (twin.butt_at === low) twin.butt_at = name;
  for (const j of joints) {
    if (j.at === high) j.stringer = twin.name;
    else if (j.at === undefined) deck.joints.push({ ...structuredClone(j), stringer: twin.name });
  }
  deck.stringers.splice(deck.stringers.indexOf(s) + 1, 0, twin);
  return `${isText(s.name) ? s.name : "the stringer"} now ends at ${name}, and ${twin.name} begins there`;
}

const postLists = (deck) => [deck.every_bent, ...listOf(deck, "bents")].filter((b) => Array.isArray(b?.posts));

export function rowGone(deck, name) {
  if (!isText(name) || listOf(deck, "rows").some((r) => r.name === name)) return "";
  let posts = 0;
  for (const b of postLists(deck)) {
    const before = b.posts.length;
    b.posts = b.posts.filter((p) => p?.row !== name);
    posts += before - b.posts.length;
  }
  const gone = keepOnly(deck, "stringers", (s) => s?.row !== name);
  const braces = keepOnly(deck, "braces", (b) => ![b?.row, b?.from?.row, b?.to?.row].includes(name));
  dropJoints(deck, gone, braces);
  keepOnly(deck, "joints", (j) => j?.row !== name);
  const what = [posts > 0 ? "its posts" : "", gone.length > 0 ? listing(gone, "stringer") : "", braces.length > 0 ? listing(braces, "brace") : ""].filter((w) => w !== "");
  return what.length === 0 ? "" : capital(what.join(", ")) + " went with row " + name + ". Undo takes it back.";
}

// Like the row named: posts where that has some, and stringers over the same bents.
export function rowAdded(deck, row, like) {
  if (!isText(like)) return "";
  for (const b of postLists(deck)) b.posts.push(...b.posts.filter((p) => p?.row === like).map((p) => ({ ...structuredClone(p), row: row.name })));
  const added = listOf(deck, "stringers").filter((s) => s.row === like).map((s) => {
    const next = { ...s, name: nextName(s.name, deck.stringers, "stringer"), row: row.name };
    deck.stringers.push(next);
    return next;
  });
  return added.length === 0 ? "" : `It has posts and stringers like row ${like}: say how far from the centre line it lies.`;
}
