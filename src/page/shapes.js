// shapes.js - what a case may hold, as fields: labels, kinds and the names they refer to. What
// stands in a case and not here is kept and shown as text ("further entries"). A test compares keys
// and words with those that the reader allows.
//
// when(object, above): the field is there only then, or if the case has an entry for it (exact: only
// then). then(object, above, deck): what else changes with a choice. help: a few words below.
// Of lists, grown(deck, item, along, like) and gone(deck, item, along): what else comes and goes.
import { bentAdded, bentGone, nameBetween, nextName, rowAdded, rowGone } from "./frame.js";

const length = (key, label, more = {}) => ({ key, label, kind: "measure", of: "length", ...more });
const text = (key, label, more = {}) => ({ key, label, kind: "text", ...more });
const number = (key, label, more = {}) => ({ key, label, kind: "number", ...more });
const flag = (key, label, more = {}) => ({ key, label, kind: "flag", ...more });
const choice = (key, label, options, more = {}) => ({ key, label, kind: "choice", options, ...more });
const ref = (key, label, to, more = {}) => ({ key, label, kind: "ref", to, ...more });
const either = (keys, label, more = {}) => ({ keys, label, kind: "either", ...more });
const object = (key, label, shape, more = {}) => ({ key, label, kind: "object", shape, ...more });
const list = (key, label, shape, more = {}) => ({ key, label, kind: "list", shape, ...more });
const measure = (key, label, of, more = {}) => ({ key, label, kind: "measure", of, ...more });
const drop = (object, ...keys) => { for (const key of keys) delete object[key]; };
const isText = (value) => typeof value === "string";

const soils = [["gravel", "gravel"], ["sand", "sand"], ["clay", "clay or silt"]];

const grade = { fields: [
  text("largest_knot", "Largest knot, measured around the log", { example: ["3 in", "80 mm"] }),
  text("knots_in_foot", "All knots of the worst foot together, around", { example: ["6 in", "150 mm"] }),
  text("spiral_grain", "Grain winds", { example: ["1 in 20", "1 in 20"] }),
  text("drying_check", "Deepest drying check", { example: ["2 in", "50 mm"] }),
  object("sweep", "Sweep", { fields: [length("bow", "Bow", { example: ["1 in", "25 mm"] }),
    length("over", "Over a length of")] }),
  choice("insects", "Insects", [["none", "none"], ["pinholes", "pinholes"], ["borers", "borers"]]),
  choice("decay", "Decay", [["none", "none"], ["signs", "any sign"]]),
  choice("dead_when_cut", "Dead when it was cut", [[false, "no"], [true, "yes"]]),
] };

const log = { name: "name", fields: [
  text("name", "Name"),
  { key: "species", label: "Species", kind: "species", wide: true },
  either([["butt_girth", "girth"], ["butt_diameter", "across"]], "Butt", { example: ["27 in", "690 mm"] }),
  either([["tip_girth", "girth"], ["tip_diameter", "across"]], "Tip", { example: ["24 1/2 in", "620 mm"] }),
  choice("bark", "Bark", [["off", "peeled"], ["on", "measured over bark"]], { wide: true }),
  length("length", "Length, if known", { example: ["9 ft 6 in", "2.9 m"] }),
], more: [
  length("bark_thickness", "Bark, thick", { example: ["1/2 in", "12 mm"] }),
  object("grade", "Looked over by eye (no answer counts on the cautious side)", grade),
  length("outer_loss", "Rotten outside, deep", { example: ["1/2 in", "12 mm"] }),
  length("shell", "Hollow: sound shell, thick", { example: ["3 in", "80 mm"] }),
  length("flat_top", "Flat on top, deep", { example: ["1 in", "25 mm"] }),
  length("flat_bottom", "Flat below, deep", { example: ["1 in", "25 mm"] }),
  flag("half", "Split in half"),
  length("sweep", "Sweep (bow of the whole log)", { example: ["1 in", "25 mm"] }),
  choice("strength_class", "Strength class", "strength_class", { help: "of graded timber; Eurocode only" }),
  list("notches", "Notches", { fields: [length("at", "From the butt"), length("depth", "Deep", { example: ["1 in", "25 mm"] }),
    choice("side", "Side", [["top", "top"], ["bottom", "bottom"]])] },
    { one: "notch", optional: true, fresh: () => ({ at: "", depth: "", side: "bottom" }) }),
  list("stations", "Measured on the way", { fields: [length("at", "From the butt"),
    either([["girth", "girth"], ["diameter", "across"]], "There")] },
    { one: "measure", optional: true, fresh: () => ({ at: "", girth: "" }) }),
] };

const pad = { fields: [either([["diameter", "across, round"], ["width", "smaller width, other"]], "Size", { example: ["16 in", "400 mm"], wide: true })] };

const post = { fields: [
  ref("row", "Row", "rows"),
  ref("log", "Log", "logs"),
  length("hole_depth", "Hole, deep", { example: ["3 ft 6 in", "1.05 m"] }),
  choice("soil", "Soil here", soils, { blank: "as the ground" }),
  object("pad", "Pad under it", pad),
], more: [
  choice("foot", "Foot", [["hole", "in a packed hole"], ["pad", "on a pad or stone"], ["fixed", "fixed: cannot turn"]], { blank: "in a packed hole" }),
  length("hole_width", "Hole, wide", { example: ["16 in", "400 mm"] }),
  flag("tip_down", "Tip end down"),
] };

const posts = list("posts", "Posts", post, { one: "post", brief: (p) => [p.row, p.hole_depth].filter(Boolean).join(", "), fresh: (deck) => ({
  row: (deck.rows?.[0]?.name) ?? "", log: (deck.logs?.at(-1)?.name) ?? "", hole_depth: "" }) });

const bent = { name: "name", fields: [
  text("name", "Name"),
  length("at", "Place along the deck"),
  length("deck_height", "Deck above ground", { example: ["2 ft 6 in", "750 mm"] }),
], more: [
  ref("cap", "Cap log", "logs"),
  ref("sill", "Sill log, lying on the ground", "logs"),
  posts,
] };

const every = { fields: [
  length("deck_height", "Deck above ground", { example: ["2 ft 6 in", "750 mm"] }),
  ref("cap", "Cap log", "logs"),
  posts,
], more: [ref("sill", "Sill log, lying on the ground", "logs")] };

const stringer = { name: "name", fields: [
  text("name", "Name"),
  ref("row", "Row", "rows"),
  ref("log", "Log", "logs"),
  ref("from", "From bent", "bents"),
  ref("to", "To bent", "bents"),
  ref("butt_at", "Butt at bent", "bents", { blank: "where it begins" }),
] };

const end = { fields: [
  ref("row", "Post of row", "rows", { when: (_, b) => b.row === undefined }),
  ref("bent", "Post of bent", "bents", { when: (_, b) => b.row !== undefined }),
  length("height", "Height above ground", { example: ["4 in", "100 mm"] })] };

const isKnee = (b) => b.kind === "knee";
const brace = { name: "name", fields: [
  text("name", "Name"),
  choice("kind", "Kind", [["diagonal", "one diagonal"], ["crossed", "crossed pair"], ["knee", "knee"]], { then: (b) => {
    if (isKnee(b)) drop(b, "from", "to");
    else drop(b, "height", "beside", "ahead", b.bent === undefined ? "bent" : "row");
  } }),
  ref("log", "Log", "logs"),
  { keys: [["bent", "across, at bent", "bents"], ["row", "along, in row", "rows"]], label: "Lies", kind: "which", wide: true,
    exact: true, when: (b) => !isKnee(b), then: (b) => {
      for (const one of [b.from, b.to]) if (one) drop(one, "row", "bent");
    } },
  ref("bent", "On the post at bent", "bents", { exact: true, when: isKnee }),
  ref("row", "of row", "rows", { exact: true, when: isKnee }),
  flag("pulls", "Fastened so that it can pull (say how under Joints)"),
  length("height", "Foot of the knee above ground", { when: isKnee }),
  length("beside", "Ends under the cap, beside its post", { when: isKnee, help: "left is minus", example: ["20 in", "500 mm"] }),
  length("ahead", "or under the stringer, ahead of its post", { when: isKnee, help: "back is minus", example: ["20 in", "500 mm"] }),
  object("from", "From", end, { when: (b) => !isKnee(b), open: true }),
  object("to", "To", end, { when: (b) => !isKnee(b), open: true }),
] };

// ---- joints ----

const several = (f) => f.count !== undefined && f.count !== 1;
const fasteners = { fields: [
  choice("kind", "Kind", [["lag screw", "lag screw"], ["screw", "long structural screw"], ["bolt", "bolt"], ["spike", "spike"], ["nail", "nail"]],
    { then: () => {} }),
  number("count", "How many", { example: ["2", "2"], then: () => {} }),
  length("diameter", "Thick", { example: ["5/8 in", "16 mm"] }),
  length("length", "Long, below the head", { example: ["10 in", "250 mm"], when: (f) => f.kind !== "bolt" }),
  length("head", "Head or washer, across", { example: ["2 in", "50 mm"] }),
  length("end", "From the end of the log", { example: ["5 in", "130 mm"], help: "of the nearer one" }),
  length("edge", "From its edge", { example: ["2 in", "50 mm"], help: "of either log, the nearer" }),
  length("loaded_edge", "From the edge that it is pushed to", { example: ["4 in", "100 mm"], help: "a hung log: from its top" }),
  length("spacing", "One to the next, along the load", { example: ["4 in", "100 mm"], when: several }),
  number("rows", "Rows side by side", { example: ["1", "1"], when: several }),
  length("row_spacing", "Row to row", { example: ["2 in", "50 mm"], when: several }),
], more: [
  choice("planes", "Joins", [[1, "two logs"], [2, "three: a bolt through the middle one"]], { blank: "two logs", wide: true }),
  flag("toe", "Driven aslant through the end of the log"),
  length("root", "Thick under the thread", { example: ["0.47 in", "12 mm"] }),
  length("thread", "Thread in the second log, long", { example: ["4 in", "100 mm"] }),
  length("penetration", "In the second log, deep", { example: ["5 in", "130 mm"], help: "without the point" }),
  length("side", "Wood under the head, thick", { example: ["4 in", "100 mm"], help: "where the log is cut thinner" }),
  measure("yield", "Yield stress, by its maker", "stress"),
] };

const ofBrace = (j) => j.brace !== undefined;
const joint = { fields: [
  { keys: [["stringer", "one stringer", "stringers"], ["row", "all of a row", "rows"], ["brace", "a brace", "braces"]], label: "Ends of", kind: "which", wide: true },
  ref("at", "At bent", "bents", { blank: "all that it meets", when: (j) => !ofBrace(j) }),
  choice("end", "Which end", [["from", "the first"], ["to", "the second"], ["both", "both"]], { blank: "both", when: ofBrace }),
  choice("load", "The load", [["bears", "bears: log lies on log"], ["hung", "hangs on the fasteners"]], { blank: "bears: log lies on log", wide: true, then: () => {} }),
  choice("into", "Hangs on the", [["post", "post"], ["cap", "cap"]], { blank: "post", when: (j) => j.load === "hung" && !ofBrace(j) }),
  length("notch", "Notch that it pushes into, deep", { example: ["1 in", "25 mm"], blank: "", when: ofBrace, help: "left out: as deep as seats" }),
  object("fasteners", "Fasteners", fasteners, { open: true }),
] };

// A brace that pulls and has no joint comes first: nothing can be said of it.
function freshJoint(deck) {
  const joints = Array.isArray(deck.joints) ? deck.joints : [], braces = Array.isArray(deck.braces) ? deck.braces : [];
  const open = braces.find((b) => b?.pulls === true && !joints.some((j) => j?.brace === b.name));
  return open ? { brace: open.name, fasteners: { kind: "bolt", count: 1, diameter: "" } } : { row: deck.rows?.[0]?.name ?? "", load: "bears" };
}

// A minus is left of the centre line.
const sideOf = (across) => !isText(across) ? "" : across.trim().startsWith("-") ? across.trim().slice(1).trim() + " to the left"
  : /[1-9]/.test(across) ? across.trim() + " to the right" : across;

// ---- boards ----

const isRound = (b) => b.kind === "split rail" || b.kind === "half log";
const boards = { fields: [
  choice("kind", "Kind", [["sawn", "sawn boards"], ["split rail", "split rails"], ["half log", "half logs"]], { blank: "sawn boards", then: (b) => {
    if (isRound(b)) drop(b, "width", "thickness");
    else drop(b, "girth", "diameter", "flat");
    if (isText(b.grade) === isRound(b)) drop(b, "grade");
  } }),
  { key: "species", label: "Species", kind: "species", wide: true },
  choice("grade", "Grade", [["ungraded", "not graded"], ["select structural", "select structural"], ["No. 1", "No. 1"], ["No. 2", "No. 2"], ["No. 3", "No. 3"]],
    { blank: "not graded", exact: true, when: (b) => !isRound(b) || isText(b.grade) }),
  length("width", "Board, wide", { example: ["7 1/4 in", "180 mm"], when: (b) => !isRound(b) }),
  length("thickness", "Board, thick", { example: ["1 1/2 in", "40 mm"], when: (b) => !isRound(b) }),
  either([["girth", "girth"], ["diameter", "across"]], "Before it was split", { example: ["18 in", "450 mm"], when: isRound }),
  choice("flat", "Flat side", [["up", "up"], ["down", "down"]], { blank: "up", when: isRound }),
  length("gap", "Gap between them", { example: ["3/4 in", "20 mm"] }),
  choice("laid", "Laid", [["in one piece", "in one piece over all rows"], ["cut over every row", "cut over every row"]], { blank: "not said: the worse counts", wide: true }),
], more: [
  object("grade", "Looked over by eye (no answer counts on the cautious side)", grade, { exact: true, when: (b) => isRound(b) && !isText(b.grade) }),
  choice("strength_class", "Strength class", "strength_class", { help: "of graded timber; Eurocode only" }),
  number("share", "Part of a wheel that neighbours take", { example: ["0", "0"], help: "0 to 0.5; 0 if not said" }),
  measure("person", "A person on one board weighs", "force", { example: ["300 lbf", "1.3 kN"] }),
] };

const width = { fields: [
  length("width", "Deck, wide", { example: ["4 ft", "1.2 m"] }),
  length("board_thickness", "Boards, thick", { example: ["1 5/8 in", "40 mm"], when: (d) => d.boards === undefined,
    help: "for their weight alone" }),
  object("boards", "What the boards are (left empty: they are not checked)", boards, { open: true }),
], more: [measure("board_weight", "Boards weigh, per area", "pressure", { example: ["8 psf", "0.4 kPa"] })] };

// ---- loads ----

const fall = (a) => a.kind === "landing" || a.kind === "small step";
const action = { fields: [
  choice("kind", "What riders do", [["rolling", "roll over it"], ["small step", "roll off a small step"], ["landing", "land on it"], ["transition", "ride through a curve"]],
    { blank: "as the number says", wide: true, then: (a, rider) => {
      if (a.kind === undefined) drop(rider, "action");
      else drop(rider, "factor");
      if (a.kind !== "landing") drop(a, "slope");
      if (!fall(a)) drop(a, "height", "travel", "sag");
      if (a.kind !== "transition") drop(a, "radius");
      if (a.kind !== "transition" && a.kind !== "landing") drop(a, "speed");
    } }),
  length("height", "They drop", { example: ["3 ft", "900 mm"], when: fall, help: "from the highest point of the flight" }),
  measure("speed", "Speed", "speed", { when: (a) => a.kind === "landing" || a.kind === "transition", help: "landing: of the slowest; curve: of the fastest" }),
  measure("slope", "Slope they land on", "slope", { when: (a) => a.kind === "landing", help: "below 0 it rises ahead" }),
  length("travel", "Legs and suspension give", { example: ["14 in", "350 mm"], when: fall }),
  length("sag", "of it taken up standing", { example: ["3 in", "80 mm"], when: fall }),
  length("radius", "Radius of the curve", { example: ["8 ft", "2.5 m"], when: (a) => a.kind === "transition" }),
] };

const together = (r) => r.rider_mass === undefined && r.bike_mass === undefined;
const rider = { fields: [
  measure("mass", "Mass with bike and kit", "mass", { when: together }),
  number("factor", "Presses down so many times its weight", { example: ["3", "3"], when: (r) => r.action === undefined }),
  number("count", "Riders in a line", { example: ["1", "1"] }),
  object("action", "or worked out from what riders do", action, { bare: true }),
], more: [
  measure("rider_mass", "Rider alone", "mass", { example: ["210 lb", "95 kg"], when: (r) => r.mass === undefined, help: "in place of both together" }),
  measure("bike_mass", "Bike alone", "mass", { example: ["44 lb", "20 kg"], when: (r) => r.mass === undefined }),
  length("spacing", "From one to the next"),
  length("wheelbase", "Between the wheels", { example: ["4 ft", "1.2 m"] }),
  number("push", "Brakes with, of the weight", { example: ["0.5", "0.5"] }),
  number("load_duration", "Load duration factor", { example: ["1.6", "1.1"], help: "as the chosen basis has it" }),
] };

const machine = { fields: [
  text("name", "What", { example: ["ride-on mower", "ride-on mower"] }),
  measure("mass", "Mass, loaded, with its driver", "mass", { example: ["900 lb", "400 kg"] }),
  length("wheelbase", "Axle to axle", { example: ["4 ft", "1.2 m"] }),
  length("track", "Wheel to wheel across", { example: ["3 ft", "900 mm"] }),
], more: [
  number("heavy_axle_share", "Part of it on the heavier axle", { example: ["0.6", "0.6"] }),
  number("factor", "Presses down so many times its weight", { example: ["1.3", "1.3"] }),
  number("push", "Brakes with, of the weight", { example: ["0.5", "0.5"] }),
  number("load_duration", "Load duration factor", { example: ["1.6", "1.1"] }),
] };

const takeOff = { fields: [
  ref("bent", "Stands at bent", "bents"),
  measure("thrust", "Thrust", "force", { example: ["300 lbf", "1.3 kN"], when: (t) => t.radius === undefined, help: "away from the deck at its ends, either way between them; or from the curve:" }),
  measure("speed", "Speed at its foot", "speed"),
  length("radius", "Radius of the curve", { example: ["8 ft", "2.5 m"], then: (t) => { if (t.radius !== undefined) drop(t, "thrust"); } }),
  measure("lip", "Slope of the lip", "angle"),
] };

const loads = { fields: [
  object("rider", "A rider", rider, { nullable: true, open: true }),
  choice("use", "People: the deck is a", "use", { blank: "not said: by weight per area", wide: true, then: (l) => { if (l.use !== undefined) drop(l, "crowd"); } }),
  measure("crowd", "People, per area", "pressure", { when: (l) => l.use === undefined, help: "empty: none" }),
  measure("snow", "Snow, per area", "pressure", { example: ["25 psf", "1.2 kPa"], help: "ask the local code; empty: none" }),
], more: [
  flag("soaked", "Logs and boards may be soaked through"),
  measure("person_mass", "A person, for counting heads", "mass", { example: ["180 lb", "80 kg"] }),
  measure("extra_dead", "Further weight that stays, per area", "pressure", { example: ["5 psf", "0.25 kPa"] }),
  measure("people_sway", "People sway with, per area", "pressure", { example: ["4 psf", "0.2 kPa"] }),
  text("lean", "Posts lean", { example: ["1 in 50", "1 in 50"] }),
  object("machine", "A machine that crosses now and then", machine),
  object("take_off", "Take-off ramp on the deck", takeOff),
] };

export const caseShape = { fields: [
  { head: "The deck", id: "deck", fields: [
    text("title", "Title", { wide: true }),
    text("builder", "Builder"),
    text("place", "Place", { wide: true }),
    text("landowner", "Landowner"),
    choice("units", "Answers in", [["imperial", "feet, inches"], ["metric", "metres"]], { always: true }),
    choice("basis", "Checked by the rules of", "basis", { blank: "the usual ones: allowable stress", wide: true }),
  ] },
  { head: "Width and boards", id: "boards", fields: [object("deck", "Width and boards", width, { bare: true })] },
  { head: "Logs", id: "logs", fields: [list("logs", "Logs", log, { one: "log", bare: true, brief: (l) => [l.species, l.tip_girth ?? l.tip_diameter].filter(isText).join(", "),
    fresh: (deck, metric) => ({ name: "log " + (1 + (deck.logs?.length ?? 0)), species: "unknown softwood",
      butt_girth: metric ? "700 mm" : "27 in", tip_girth: metric ? "640 mm" : "25 in", bark: "off" }) })] },
  { head: "Rows: lines of stringers", id: "rows", fields: [list("rows", "Rows", { name: "name", fields: [text("name", "Name"),
    length("across", "Across from the centre line (left is minus)", { example: ["-20 in", "-500 mm"], wide: true })] }, { one: "row", bare: true, closed: true, brief: (r) => sideOf(r.across),
    single: true, cursor: "across", grown: (deck, row, _, like) => ({ words: rowAdded(deck, row, like?.name) }), gone: (deck, row) => rowGone(deck, row?.name),
    fresh: (deck) => ({ name: nextName("row " + (deck.rows?.length ?? 0), deck.rows, "row"), across: "" }) })] },
  { head: "Bents: posts with a cap log across the deck", id: "bents", fields: [
    object("every_bent", "What all bents share, unless they say otherwise", every, { open: true }),
    list("bents", "Bents", bent, { one: "bent", bare: true, brief: (b) => String(b.at ?? ""),
      text: "Add a bent at the end, with stringers to it", after: "Add a bent after it", along: true, cursor: "at",
      grown: (deck, bent, along) => bentAdded(deck, bent.name, along), gone: (deck, bent, along) => bentGone(deck, bent?.name, along),
      fresh: (deck, metric, like, isLast) => ({ name: isLast ? nextName(like?.name, deck.bents, "bent") : nameBetween(like?.name, deck.bents), at: "" }) })] },
  { head: "Stringers", id: "stringers", fields: [list("stringers", "Stringers", stringer, { one: "stringer", bare: true, closed: true, brief: (s) => `${s.row ?? "?"}, ${s.from ?? "?"} to ${s.to ?? "?"}: ${s.log ?? "?"}`,
    fresh: (deck) => ({ name: "S" + (1 + (deck.stringers?.length ?? 0)), row: deck.rows?.[0]?.name ?? "", log: deck.logs?.[0]?.name ?? "",
      from: deck.bents?.at(-2)?.name ?? "", to: deck.bents?.at(-1)?.name ?? "" }) })] },
  { head: "Braces", id: "braces", fields: [list("braces", "Braces", brace, { one: "brace", bare: true, optional: true, brief: (b) => String(b.kind ?? ""),
    fresh: (deck) => ({ name: "brace " + (1 + (deck.braces?.length ?? 0)), kind: "diagonal", log: deck.logs?.[0]?.name ?? "", pulls: false,
      bent: deck.bents?.[0]?.name ?? "", from: { row: deck.rows?.[0]?.name ?? "", height: "" }, to: { row: deck.rows?.[1]?.name ?? "", height: "" } }) })] },
  { head: "Joints: what holds the ends", id: "joints", closed: true, fields: [list("joints", "Joints", joint, { one: "joint", bare: true, optional: true,
    brief: (j) => [j.fasteners?.count, j.fasteners?.kind].filter((v) => v !== undefined).join(" "),
    title: (j) => j.stringer ?? j.brace ?? (j.row === undefined ? undefined : "row " + j.row), fresh: freshJoint })] },
  { head: "Loads", id: "loads", fields: [object("loads", "Loads", loads, { bare: true })] },
  { head: "Ground", id: "ground", fields: [object("ground", "Ground", { fields: [
    choice("soil", "Soil", soils),
    length("frost_depth", "Frost goes down to", { example: ["3 ft", "900 mm"], help: "empty: no hole is compared" }),
    flag("half_inch_movement_ok", "A post may move 1/2 in (13 mm) at the ground", { help: "the soil is then counted twice as strong against short pushes" }),
  ] }, { bare: true })] },
  { head: "Limits", id: "limits", closed: true, fields: [object("limits", "Limits", { fields: [
    text("deflection_live", "Deflection under the moving load", { example: ["span/360", "span/360"] }),
    text("deflection_long_term", "Sag in the long run", { example: ["span/240", "span/240"] }),
    text("deflection_boards", "Sag of a board", { example: ["span/120", "span/120"] }),
    length("seat_depth", "Flat cut where logs bear, deep", { example: ["1 in", "25 mm"] }),
  ] }, { bare: true })] },
] };

// Which keys hold the name of what: renaming a log renames it where it is used.
export const references = { log: "logs", cap: "logs", sill: "logs", row: "rows",
  bent: "bents", from: "bents", to: "bents", butt_at: "bents", stringer: "stringers", brace: "braces" };

export const examples = { length: ["6 ft 6 in", "2.3 m"], mass: ["254 lb", "115 kg"], pressure: ["60 psf", "3 kPa"], force: ["300 lbf", "1.3 kN"],
  speed: ["15 mph", "24 km/h"], slope: ["1 in 2", "1 in 2"], angle: ["30 deg", "30 deg"], stress: ["130 ksi", "900 MPa"] };
