// shapes.js - what a case may hold, as fields: labels, kinds and the names they refer to. What
// stands in a case and not here is kept and shown as text ("further entries").

const length = (key, label, more = {}) => ({ key, label, kind: "measure", of: "length", ...more });
const text = (key, label, more = {}) => ({ key, label, kind: "text", ...more });
const number = (key, label, more = {}) => ({ key, label, kind: "number", ...more });
const flag = (key, label, more = {}) => ({ key, label, kind: "flag", ...more });
const choice = (key, label, options, more = {}) => ({ key, label, kind: "choice", options, ...more });
const ref = (key, label, to, more = {}) => ({ key, label, kind: "ref", to, ...more });
const either = (keys, label, more = {}) => ({ keys, label, kind: "either", ...more });
const object = (key, label, shape, more = {}) => ({ key, label, kind: "object", shape, ...more });
const list = (key, label, shape, more = {}) => ({ key, label, kind: "list", shape, ...more });

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
  { key: "species", label: "Species", kind: "species" },
  either([["butt_girth", "girth"], ["butt_diameter", "diameter"]], "Butt", { example: ["27 in", "690 mm"] }),
  either([["tip_girth", "girth"], ["tip_diameter", "diameter"]], "Tip", { example: ["24 1/2 in", "620 mm"] }),
  choice("bark", "Bark", [["off", "peeled"], ["on", "measured over bark"]]),
  length("length", "Length"),
], more: [
  length("bark_thickness", "Bark, thick", { example: ["1/2 in", "12 mm"] }),
  object("grade", "Looked over by eye (no answer counts on the cautious side)", grade),
  length("outer_loss", "Rotten outside, deep", { example: ["1/2 in", "12 mm"] }),
  length("shell", "Hollow: sound shell, thick", { example: ["3 in", "80 mm"] }),
  length("flat_top", "Flat on top, deep", { example: ["1 in", "25 mm"] }),
  length("flat_bottom", "Flat below, deep", { example: ["1 in", "25 mm"] }),
  flag("half", "Split in half"),
  length("sweep", "Sweep (bow of the whole log)", { example: ["1 in", "25 mm"] }),
  text("strength_class", "Strength class (Eurocode basis)", { example: ["C24", "C24"] }),
  list("notches", "Notches", { fields: [length("at", "From the butt"), length("depth", "Deep", { example: ["1 in", "25 mm"] }),
    choice("side", "Side", [["top", "top"], ["bottom", "bottom"]])] },
    { one: "notch", fresh: () => ({ at: "", depth: "", side: "bottom" }) }),
  list("stations", "Measured on the way", { fields: [length("at", "From the butt"),
    either([["girth", "girth"], ["diameter", "diameter"]], "There")] },
    { one: "measure", fresh: () => ({ at: "", girth: "" }) }),
] };

const pad = { fields: [either([["diameter", "round, across"], ["width", "other, smaller width"]], "Size", { example: ["16 in", "400 mm"] })] };

const post = { fields: [
  ref("row", "Row", "rows"),
  ref("log", "Log", "logs"),
  length("hole_depth", "Hole, deep"),
  choice("soil", "Soil here", soils, { blank: "as the ground" }),
  object("pad", "Pad under it", pad),
], more: [
  choice("foot", "Foot", [["hole", "in a packed hole"], ["pad", "on a pad or stone"], ["fixed", "fixed: cannot turn"]], { blank: "in a packed hole" }),
  length("hole_width", "Hole, wide"),
  flag("tip_down", "Tip end down"),
] };

const posts = list("posts", "Posts", post, { one: "post", brief: (p) => [p.row, p.hole_depth].filter(Boolean).join(", "), fresh: (deck) => ({
  row: (deck.rows?.[0]?.name) ?? "", log: (deck.logs?.at(-1)?.name) ?? "", hole_depth: "" }) });

const bent = { name: "name", fields: [
  text("name", "Name"),
  length("at", "Place along the deck"),
  length("deck_height", "Deck above ground"),
], more: [
  ref("cap", "Cap log", "logs"),
  ref("sill", "Sill log, lying on the ground", "logs"),
  posts,
] };

const every = { fields: [
  length("deck_height", "Deck above ground"),
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

const end = { fields: [ref("row", "Row", "rows"), ref("bent", "Bent", "bents"), length("height", "Height above ground")] };

const brace = { name: "name", fields: [
  text("name", "Name"),
  choice("kind", "Kind", [["diagonal", "one diagonal"], ["crossed", "crossed pair"], ["knee", "knee"]]),
  ref("log", "Log", "logs"),
  flag("pulls", "Fastened so that it can pull"),
  ref("bent", "Across at bent", "bents"),
  ref("row", "Along in row", "rows"),
  object("from", "From", end),
  object("to", "To", end),
], more: [length("height", "Knee: height on the post"), length("beside", "Knee: beside the post"), length("ahead", "Knee: ahead along the row")] };

const rider = { fields: [
  { key: "mass", label: "Mass with bike and kit", kind: "measure", of: "mass" },
  number("factor", "Presses down so many times", { example: ["3", "3"] }),
  number("count", "Riders in a line", { example: ["1", "1"] }),
], more: [
  length("spacing", "From one to the next"),
  length("wheelbase", "Between the wheels"),
  text("push", "Brakes with, of the weight"),
  number("load_duration", "Load duration factor"),
] };

export const caseShape = { fields: [
  { head: "The deck", id: "deck", fields: [
    text("title", "Title"),
    text("place", "Place"),
    text("builder", "Builder"),
    text("landowner", "Landowner"),
    choice("units", "Units of the report", [["imperial", "feet and inches"], ["metric", "metres"]], { always: true }),
    choice("basis", "Checked by", [["us_asd", "allowable stress (NDS)"], ["eurocode", "Eurocode 5"]], { blank: "usual: allowable stress" }),
    object("deck", "Boards", { fields: [length("width", "Deck, wide"), length("board_thickness", "Boards, thick", { example: ["1 5/8 in", "40 mm"] })],
      more: [{ key: "board_weight", label: "Boards weigh", kind: "measure", of: "pressure" }] }, { open: true }),
  ] },
  { head: "Logs", id: "logs", fields: [list("logs", "Logs", log, { one: "log", bare: true,
    fresh: (deck, metric) => ({ name: "log " + (1 + (deck.logs?.length ?? 0)), species: "unknown softwood",
      butt_girth: metric ? "700 mm" : "27 in", tip_girth: metric ? "640 mm" : "25 in", bark: "off" }) })] },
  { head: "Rows: lines of stringers", id: "rows", fields: [list("rows", "Rows", { name: "name", fields: [text("name", "Name"),
    length("across", "Across from the centre line (left is minus)", { example: ["-20 in", "-500 mm"] })] }, { one: "row", bare: true, brief: (r) => String(r.across ?? ""),
    fresh: (deck) => ({ name: "row " + (1 + (deck.rows?.length ?? 0)), across: "" }) })] },
  { head: "Bents: posts and cap at one station", id: "bents", fields: [
    object("every_bent", "What all bents share, unless they say otherwise", every, { open: true }),
    list("bents", "Bents", bent, { one: "bent", bare: true, brief: (b) => String(b.at ?? ""),
      fresh: (deck) => ({ name: "bent " + (1 + (deck.bents?.length ?? 0)), at: "" }) })] },
  { head: "Stringers", id: "stringers", fields: [list("stringers", "Stringers", stringer, { one: "stringer", bare: true, closed: true, brief: (s) => `${s.row ?? "?"}, ${s.from ?? "?"} to ${s.to ?? "?"}: ${s.log ?? "?"}`,
    fresh: (deck) => ({ name: "S" + (1 + (deck.stringers?.length ?? 0)), row: deck.rows?.[0]?.name ?? "", log: deck.logs?.[0]?.name ?? "",
      from: deck.bents?.at(-2)?.name ?? "", to: deck.bents?.at(-1)?.name ?? "" }) })] },
  { head: "Braces", id: "braces", fields: [list("braces", "Braces", brace, { one: "brace", bare: true, brief: (b) => String(b.kind ?? ""),
    fresh: (deck) => ({ name: "brace " + (1 + (deck.braces?.length ?? 0)), kind: "diagonal", log: deck.logs?.[0]?.name ?? "", pulls: false,
      bent: deck.bents?.[0]?.name ?? "", from: { row: deck.rows?.[0]?.name ?? "", height: "" }, to: { row: deck.rows?.[1]?.name ?? "", height: "" } }) })] },
  { head: "Loads", id: "loads", fields: [object("loads", "Loads", { fields: [
    object("rider", "A rider", rider, { nullable: true, open: true }),
    { key: "crowd", label: "People, per area", kind: "measure", of: "pressure" },
    { key: "snow", label: "Snow, per area", kind: "measure", of: "pressure" },
  ], more: [
    { key: "extra_dead", label: "Further weight that stays, per area", kind: "measure", of: "pressure" },
    { key: "people_sway", label: "People sway with, per area", kind: "measure", of: "pressure" },
    text("lean", "Posts lean", { example: ["1 in 50", "1 in 50"] }),
    object("take_off", "Take-off ramp on the deck", { fields: [ref("bent", "At bent", "bents"),
      { key: "thrust", label: "Thrust", kind: "measure", of: "force" }] }),
  ] }, { bare: true })] },
  { head: "Ground", id: "ground", fields: [object("ground", "Ground", { fields: [
    choice("soil", "Soil", soils),
    length("frost_depth", "Frost goes down to"),
    flag("half_inch_movement_ok", "A post may move 1/2 in (13 mm) at the ground"),
  ] }, { bare: true })] },
  { head: "Limits", id: "limits", closed: true, fields: [object("limits", "Limits", { fields: [
    text("deflection_live", "Deflection under the moving load", { example: ["span/360", "span/360"] }),
    text("deflection_long_term", "Sag in the long run", { example: ["span/240", "span/240"] }),
    length("seat_depth", "Flat cut where logs bear, deep", { example: ["1 in", "25 mm"] }),
  ] }, { bare: true })] },
] };

// Which keys hold the name of what: renaming a log renames it where it is used.
export const references = { log: "logs", cap: "logs", sill: "logs", row: "rows",
  bent: "bents", from: "bents", to: "bents", butt_at: "bents" };

export const examples = { length: ["6 ft 6 in", "2.3 m"], mass: ["254 lb", "115 kg"], pressure: ["60 psf", "3 kPa"], force: ["300 lb", "1.3 kN"] };
