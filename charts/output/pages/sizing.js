"use strict";
// How many stitches and rows fit: the same reckoning as the tool's, from the tables that it made.

const CLOSE = 0.0005, SLACK_MM = 1, ROWS_REACH = 3, ABSURD = 1 / 3;
const LEAST_SLACK = 0.005, FIRM_STRETCH = 0.03;

function halfUp(value) { return Math.floor(value + 0.5 + 1e-9); }

function sum(numbers) { let total = 0; for (const each of numbers) total += each; return total; }

function mean(numbers) { return sum(numbers) / numbers.length; }

// What sizing is asked: the pattern's tables with the reader's measures put in.
function requestOf(tables, given) {
  const stitch = given.over / given.stitches;
  let border = null;
  if (tables.border) {
    const width = given.over / (given.borderStitches || given.stitches);
    const row = given.borderRows ? given.over / given.borderRows : tables.border.relative * width;
    border = { width, row, thick: row * tables.border.rounds, measured: given.borderStitches !== null };
  }
  const mm = roomed(tables, given.mm), high = border ? border.row : 0, worked = Object.assign({}, mm);
  tables.ways.forEach((way, n) => { if (way in worked) worked[way] -= high * tables.sectionEdges[n]; });
  if (tables.backPart) worked["back part"] = (worked[tables.ways[1]] + worked.overlap) / 2;
  const sections = tables.sections.map((section, n) => {
    const wanted = typeof section.want === "number" ? section.want : section.want in worked ? worked[section.want] : null;
    const row = given.sectionRows[n] ? given.over / given.sectionRows[n] : null;
    const twin = section.rows === null && section.want !== "rest" ? wanted + "|" + section.text : "";
    return Object.assign({}, section, { wanted, row, twin, repeat: Math.max(1, section.heights.length - section.lead) });
  });
  let body = sections[0];
  const weight = (s) => [s.role !== "part" ? 1 : 0, s.wanted || 0, s.heights.length];
  for (const section of sections) if (less(weight(body), weight(section))) body = section;
  const usual = body.heights.slice(body.lead).length ? body.heights.slice(body.lead) : body.heights;
  const row = given.rows ? given.over / given.rows : stitch * mean(usual);
  return { tables, given, stitch, row, usual, border, sections, mm };
}

// The measurements with what the thing's thickness takes of each way round it.
function roomed(tables, given) {
  const [plain, strip] = tables.ways, thick = tables.thick ? given[tables.thick] : 0;
  const crossed = tables.thick && given.flap ? { flap: given.flap + thick } : {};
  return Object.assign({}, given, crossed, { [plain]: given[plain] + thick, [strip]: given[strip] + thick / 2 });
}

function less(one, other) {
  for (let n = 0; n < Math.max(one.length, other.length); n++) {
    if (one[n] === undefined || one[n] < other[n]) return true;
    if (other[n] === undefined || one[n] > other[n]) return false;
  }
  return false;
}

// -- one direction against the object ----------------------------------------------------------------------------

class Span {
  constructor(name, fit, border, flap, stretch) { Object.assign(this, { name, fit, border, flap, stretch, slack: 0 }); }
  get wanted() { return this.fit - this.border + 2 * this.flap; }
  get bounds() {
    if (!this.stretch) return [0, Infinity];
    const [low, high] = this.stretch, aside = 2 * this.flap - this.border;
    return [this.fit / (1 + high + CLOSE) + aside, this.fit / Math.max(1e-9, 1 + low - this.slack - CLOSE) + aside];
  }
  get tight() {
    if (!this.stretch) return Infinity;
    return this.fit / Math.max(1e-9, 1 + this.stretch[0] - CLOSE) + 2 * this.flap - this.border;
  }
  get firm() { return this.stretch ? this.fit / (1 + FIRM_STRETCH) + 2 * this.flap - this.border : 0; }
  of(worked, flap) {
    const on = worked + this.border - 2 * (flap === undefined ? this.flap : flap);
    return on > 0 ? this.fit / on - 1 : Infinity;
  }
  holds(stretch) {
    return !this.stretch || (this.stretch[0] - this.slack - CLOSE <= stretch && stretch <= this.stretch[1] + CLOSE);
  }
  off(stretch) {
    if (!this.stretch || this.holds(stretch)) return 0;
    return Math.max(this.stretch[0] - this.slack - stretch, stretch - this.stretch[1]);
  }
}

// Whether a section's number of rows is still to be found and stripes have a say in it.
function striped(section) {
  return section.rows === null && section.role !== "part" && section.asBegan && new Set(section.stripes).size > 1;
}

function spansOf(request) {
  const { tables, mm } = request, [plain, strip] = tables.ways, high = request.border ? request.border.row : 0;
  const counted = tables.holds ? [0, 0] : tables.borderEdges.map((edges) => edges * high);
  const both = {
    [plain]: new Span(plain, mm[plain], counted[0], 0, tables.stretch),
    [strip]: new Span(strip, mm[strip], counted[1], 0, tables.stretch),
  };
  let across = both[tables.along];
  const up = both[tables.along === plain ? strip : plain];
  if (tables.stretches && request.sections.some(striped)) up.slack = LEAST_SLACK;
  if (across.name === strip && tables.flapsInRow) {
    across = new Span(strip, across.fit, across.border, mm.flap || 0, tables.stretch);
  }
  return [across, up];
}

// -- stitches ----------------------------------------------------------------------------------------------------

function countsNear(length, request) {
  const { of, plus, least } = request.tables, repeats = (length / request.stitch - plus) / of;
  const lowest = Math.ceil((Math.max(1, least) - plus) / of), found = new Set();
  for (let k = Math.floor(repeats) - 1; k < Math.ceil(repeats) + 2; k++) found.add(Math.max(k, lowest));
  return [...found].map((k) => plus + of * k).sort((a, b) => a - b);
}

function weigh(count, span, request) {
  const length = count * request.stitch;
  if (!span.flap) return { count, flap: 0, length, stretch: span.of(length) };
  const nearest = halfUp(span.flap / request.stitch);
  let best = null;
  for (const flap of [nearest, nearest - 1, nearest + 1, nearest - 2, nearest + 2]) {
    if (!(flap > 0 && 2 * flap < count)) continue;
    const tried = { count, flap, length, stretch: span.of(length, flap * request.stitch) };
    if (!best || span.off(tried.stretch) < span.off(best.stretch)) best = tried;
  }
  return best || { count, flap: 0, length, stretch: Infinity };
}

function chooseAcross(request, span) {
  const [low, high] = span.bounds, inside = Math.min(Math.max(span.wanted, low), high);
  const counts = [...new Set([...countsNear(span.wanted, request), ...countsNear(inside, request)])].sort((a, b) => a - b);
  const cost = (w) => [span.off(w.stretch), Math.abs(w.length - span.wanted), w.count];
  return counts.map((count) => weigh(count, span, request)).reduce((a, b) => less(cost(b), cost(a)) ? b : a);
}

// -- rows --------------------------------------------------------------------------------------------------------

function written(section, row) { return row < section.lead ? row : section.lead + (row - section.lead) % section.repeat; }

function colourOf(section, row) {
  const opening = section.opening;
  if (row < opening.length) return opening[row];
  return section.stripes.length ? section.stripes[(row - opening.length) % section.stripes.length] : "";
}

function heightsOf(section, request, rows) {
  const own = section.heights.slice(section.lead).length ? section.heights.slice(section.lead) : section.heights;
  const row = section.row !== null ? section.row : request.row, usual = mean(section.row !== null ? own : request.usual);
  return Array.from({ length: rows }, (_, n) => Math.round(row * section.heights[written(section, n)] / usual * 1e9) / 1e9);
}

function lengthOf(section, request, rows) {
  if (rows <= section.lead + section.repeat) return sum(heightsOf(section, request, rows));
  const once = heightsOf(section, request, section.lead + section.repeat), again = once.slice(section.lead);
  const repeats = Math.floor((rows - section.lead) / section.repeat), left = (rows - section.lead) % section.repeat;
  return sum(once.slice(0, section.lead)) + repeats * sum(again) + sum(again.slice(0, left));
}

function asItBegan(section, rows) {
  const past = (rows - section.lead) % section.repeat, { stripes } = section;
  if (section.repeat > 1 && !(1 <= past && past <= section.begins)) return false;
  if (new Set(stripes).size < 2) return true;
  if (section.repeat > 1) return colourOf(section, rows - 1) === colourOf(section, 0);
  return rows % stripes.length === stripes.findIndex((letter) => letter !== stripes[0]);
}

function endsWhole(section, rows) {
  if (new Set(section.stripes).size < 2 || rows <= (section.opening || []).length) return true;
  return colourOf(section, rows) !== colourOf(section, rows - 1);
}

function rowCounts(section, request, target) {
  if (section.rows !== null) return [section.rows];
  const inside = Math.min(Math.max(target.wanted, target.low), target.high), found = new Set();
  const endings = section.asBegan && section.repeat > 1 ? section.begins + 1 : 1;
  for (const mm of [target.wanted, inside]) {
    for (let past = 0; past < endings; past++) for (const rows of rowsNear(section, request, mm, past)) found.add(rows);
  }
  return [...found].sort((a, b) => a - b);
}

function rowsNear(section, request, mm, past) {
  const once = lengthOf(section, request, section.lead + section.repeat), lead = lengthOf(section, request, section.lead);
  const tail = lengthOf(section, request, section.lead + section.repeat + past) - once, out = [];
  const repeats = (mm - lead - tail) / (once - lead);
  const step = section.repeat === 1 && new Set(section.stripes).size > 1 ? section.stripes.length : 0;
  for (let k = Math.floor(repeats) - ROWS_REACH - step + 1; k < Math.ceil(repeats) + ROWS_REACH + step; k++) {
    const rows = section.lead + Math.max(1, k) * section.repeat + past;
    if (rows <= request.tables.mostRows) out.push(rows);
  }
  return out;
}

// Whether raised rows fall on the wrong side and, where that is asked for too, the sides that are liked.
function sidesAllow(section, rows, firstIsRight, liked) {
  for (let row = 0; row < Math.min(rows, section.lead + 2 * section.repeat); row++) {
    const at = written(section, row), right = (row % 2 === 0) === firstIsRight, stated = section.sides[at] || "";
    if (liked && row === at && stated && (stated === "RS") !== right) return false;
    if (section.raised[at] && right && section.raisedOnWrong && !stated) return false;
    if (liked && section.near[at] && !right && section.raisedOnWrong && !stated) return false;
  }
  return true;
}

function targetsOf(request, span) {
  const { sections } = request, lies = sections.filter((s) => s.role !== "part");
  const fixed = sum(lies.filter((s) => s.rows !== null).map((s) => lengthOf(s, request, s.rows)));
  const flexible = lies.filter((s) => s.rows === null);
  const asked = sum(flexible.filter((s) => s.role === "body").map((s) => s.wanted || 0));
  const resting = Math.max(0, span.wanted - fixed - asked);
  const [low, high] = span.bounds.map((bound) => Math.max(0, bound - fixed));
  const firm = request.tables.firm ? Math.max(0, span.firm - fixed) : 0;
  const tight = Math.max(0, span.tight - fixed);
  const whole = asked + (flexible.some((s) => s.role === "rest") ? resting : 0);
  return sections.map((section) => {
    const wanted = section.role === "rest" ? resting : section.wanted || 0;
    if (section.role === "part" || section.rows !== null || whole <= 0) return { wanted, low: 0, high: Infinity, firm: 0, tight: Infinity };
    const share = wanted / whole;
    return { wanted, low: low * share, high: high * share, firm: firm * share, tight: tight * share };
  });
}

function costOf(section, request, rows, target) {
  if (section.rows !== null) return [0, 0, 0, 0];
  const mm = lengthOf(section, request, rows), off = Math.abs(mm - target.wanted), { heights } = section;
  const wants = section.asBegan && (section.repeat > 1 || new Set(section.stripes).size > 1);
  const leeway = Math.max(lengthOf(section, request, heights.length) / heights.length, 0.02 * target.wanted);
  const near = request.tables.stretch !== null || off <= leeway;
  const ending = near && asItBegan(section, rows) ? 0 : near && endsWhole(section, rows) ? 1 : 2;
  const outside = Math.max(0, target.low - mm, mm - target.high) / Math.max(target.wanted, 1);
  const whole = wants && ending < 2 && endsWhole(section, rows);
  const loose = whole ? 0 : Math.max(0, Math.min(mm, target.high) - target.tight);
  return [outside + loose / Math.max(target.wanted, 1), mm < target.firm ? 1 : 0, wants ? ending : 0, off];
}

const round = (value, digits) => Math.round(value * 10 ** digits) / 10 ** digits;
const keyOf = ([outside, forced, other, off]) => [round(outside, 9), forced, other, round(off, 6)];
const better = (one, other) => less([...keyOf(one[0]), ...one[1]], [...keyOf(other[0]), ...other[1]]);

function chooseRows(request, span, sides, liked) {
  const targets = targetsOf(request, span), { sections } = request;
  const counts = sections.map((s, n) => rowCounts(s, request, targets[n]));
  const names = [...new Set(sections.map((s) => s.twin).filter(Boolean))], held = new Map();
  const first = names.map((name) => sections.findIndex((s) => s.twin === name));
  const tries = first.reduce((ways, at) => ways.flatMap((way) => counts[at].map((rows) => [...way, rows])), [[]]);
  for (const tried of tries) {
    const allowed = sections.map((s, n) => s.twin ? [tried[names.indexOf(s.twin)]] : counts[n]);
    for (const [lies, way] of laidOn(request, allowed)) {
      const found = bestWay(request, targets, way, sides, liked);
      if (found && (!held.has(lies) || better(found, held.get(lies)))) held.set(lies, found);
    }
  }
  const best = held.get(true) || held.get(false);
  return best ? best[1] : null;
}

function laidOn(request, allowed) {
  if (!request.tables.frontOnBack || allowed.length < 2) return [[true, allowed]];
  const [front, back] = request.sections;
  return allowed[0].map((rows) => {
    const least = lengthOf(front, request, rows) - SLACK_MM;
    const under = allowed[1].filter((n) => lengthOf(back, request, n) >= least);
    return [under.length > 0, [[rows], under.length ? under : allowed[1], ...allowed.slice(2)]];
  });
}

function bestWay(request, targets, allowed, sides, liked) {
  let states = new Map([[request.sections[0].sides[0] !== "WS", [[0, 0, 0, 0], []]]]);
  request.sections.forEach((section, n) => {
    const found = new Map();
    for (const [right, [cost, chosen]] of states) {
      for (const rows of allowed[n]) {
        if (sides && !sidesAllow(section, rows, right, liked)) continue;
        const after = rows % 2 === 0 ? right : !right, more = costOf(section, request, rows, targets[n]);
        const made = [cost.map((c, i) => c + more[i]), [...chosen, rows]];
        if (!found.has(after) || better(made, found.get(after))) found.set(after, made);
      }
    }
    states = found;
  });
  let best = null;
  for (const found of states.values()) if (!best || better(found, best)) best = found;
  return best;
}

// -- the piece ---------------------------------------------------------------------------------------------------

function sizeOf(tables, given) {
  const problems = inputProblems(tables, given);
  if (problems.length) return { problems };
  const request = requestOf(tables, given), [across, up] = spansOf(request), targets = targetsOf(request, up);
  request.sections.forEach((s, n) => {
    if (!rowCounts(s, request, targets[n]).length) problems.push([sectionName(s), "at this gauge it takes more than " + tables.mostRows.toLocaleString("en") + " rows, which is the most."]);
  });
  if (problems.length) return { problems };
  const weighed = chooseAcross(request, across);
  let rows = chooseRows(request, up, true, true);
  const liked = rows !== null;
  rows = rows || chooseRows(request, up, true, false);
  if (!rows) {
    rows = chooseRows(request, up, false, false) || [];
    problems.push([sectionName(wrongSided(request, rows)), "its raised or marked rows cannot fall on the side that they are for."]);
  }
  const body = bodyOf(request, rows), stretch = up.of(body);
  if (!across.holds(weighed.stretch)) problems.push(noFit(tables, across, "stitches", countsNear(across.wanted, request).map((c) => [c + " sts", weigh(c, across, request).stretch])));
  if (!up.holds(stretch)) problems.push(noFit(tables, up, "rows", [[sum(rows) + " rows", stretch]]));
  const found = [[across, weighed.stretch]];
  if (request.sections.some((s) => s.rows === null && s.role !== "part")) found.push([up, stretch]);
  for (const [span, moves] of found) {
    if (span.stretch === null && !(1 - ABSURD <= 1 + moves && 1 + moves <= 1 / (1 - ABSURD))) {
      problems.push(["Fit along the " + span.name, "the nearest count is a third off what is asked for."]);
    }
  }
  if (problems.length) return { problems };
  const plan = planOf(request, across, up, weighed, rows);
  plan.liked = liked;
  problems.push(...foldingProblems(plan));
  return { problems, plan };
}

const sectionName = (section) => 'section "' + section.name + '"';

function wrongSided(request, rows) {
  let right = request.sections[0].sides[0] !== "WS";
  for (let n = 0; n < request.sections.length; n++) {
    if (!sidesAllow(request.sections[n], rows[n], right, false)) return request.sections[n];
    right = rows[n] % 2 === 0 ? right : !right;
  }
  return request.sections[request.sections.length - 1];
}

function noFit(tables, span, what, weighed) {
  const near = weighed.filter(([, stretch]) => Number.isFinite(stretch)).sort((a, b) => span.off(a[1]) - span.off(b[1])).slice(0, 2);
  const [low, high] = span.stretch;
  const range = tables.eases ? [percent(1 / (1 + high) - 1), percent(1 / (1 + low) - 1), "of room"] : [percent(low), percent(high), "of stretch"];
  return ["Fit along the " + span.name, "no count of " + what + " fits " + range[0] + " to " + range[1] + " " + range[2] +
    ": " + near.map(([count, stretch]) => count + ": it " + moved(stretch, tables.eases)).join(" and ") + "."];
}

function bodyOf(request, rows) {
  return sum(request.sections.map((s, n) => s.role !== "part" ? lengthOf(s, request, rows[n]) : 0).filter((_, n) => request.sections[n].role !== "part"));
}

function planOf(request, across, up, weighed, rows) {
  const { tables } = request, targets = targetsOf(request, up);
  let first = 1;
  const sections = request.sections.map((section, n) => {
    const heights = heightsOf(section, request, rows[n]);
    const made = { name: section.name, first, rows: rows[n], heights, length: sum(heights), section, wanted: section.rows === null ? targets[n].wanted : null };
    first += rows[n];
    return made;
  });
  const upMm = sum(sections.map((s) => s.length)), on = bodyOf(request, rows), flap = weighed.flap * request.stitch;
  const between = { [across.name]: weighed.length - 2 * flap, [up.name]: on };
  const high = request.border ? request.border.row : 0, thick = request.border ? request.border.thick : 0, overAll = {};
  tables.ways.forEach((way, n) => { overAll[way] = between[way] + tables.borderEdges[n] * high; });
  // a part that comes out from under another past the edge, as a strap
  for (const [part, past] of sections.length > 2 ? tables.beyond : []) overAll[up.name] += Math.max(sections.at(part).length - sections.at(past).length, 0);
  const round = request.border && (tables.kind === "panel" || !tables.border.joins) ? 2 * thick : 0;
  const stretch = { [across.name]: across.of(weighed.length, flap), [up.name]: up.of(on) };
  return {
    request, tables, sections, stitches: weighed.count, foundation: weighed.count + tables.chainPlus, flap: weighed.flap,
    rows: sum(rows), across: weighed.length, up: upMm, flat: [weighed.length + round, upMm + round], between, overAll, stretch,
    inOrder: [across.name, up.name],
  };
}

// -- folding: parts no longer than what they lie on ----------------------------------------------------------------

function partsOf(plan) {
  const { parts } = plan.tables.folding, { sections } = plan, edges = [0];
  for (const section of sections) for (const height of section.heights) edges.push(edges[edges.length - 1] + height);
  const whole = plan.tables.along === plan.tables.ways[1] ? plan.stitches * plan.request.stitch : edges[edges.length - 1];
  if (plan.tables.along === plan.tables.ways[1]) {
    const per = plan.request.stitch;
    return measured(plan, whole, (at) => Math.min(plan.stitches, Math.max(0, Math.trunc(at / per + 0.5))) * per);
  }
  if (sections.length < parts.length) {
    return measured(plan, whole, (at) => edges.reduce((a, b) => Math.abs(b - at) < Math.abs(a - at) ? b : a));
  }
  const rest = parts.findIndex((part) => part.take === "rest"), after = parts.length - rest - 1;
  return parts.map((part, n) => {
    const taken = n < rest ? [sections[n]] : n > rest ? [sections[sections.length - parts.length + n]] : sections.slice(rest, sections.length - after);
    const from = taken[0].first - 1, to = taken[taken.length - 1].first + taken[taken.length - 1].rows - 1;
    return { role: part.role, length: edges[to] - edges[from] };
  });
}

function measured(plan, whole, nearest) {
  const { parts } = plan.tables.folding, resting = ["rest", "half of the rest"];
  const given = parts.map((part) => resting.includes(part.measure) ? null
    : part.measure === "flap" && plan.flap && plan.tables.along === plan.tables.ways[1] ? plan.flap * plan.request.stitch : plan.request.mm[part.measure] || 0);
  const left = whole - sum(given.filter((mm) => mm !== null)), shares = given.filter((mm) => mm === null).length;
  if (shares && left <= 0) return null;
  let at = 0, cut = nearest(0);
  return parts.map((part, n) => {
    at += given[n] === null ? left / shares : given[n];
    const from = cut;
    cut = nearest(at);
    return { role: part.role, length: cut - from };
  });
}

function foldingProblems(plan) {
  const { folding } = plan.tables, parts = partsOf(plan), where = "Folding";
  if (!parts || parts.some((part) => part.length <= 0)) return [[where, "nothing is left for one of its parts: make the piece longer, or the flap shorter."]];
  const part = (role) => parts.find((each) => each.role === role), out = [];
  for (const [role, on, share] of folding.covers) {
    if (part(role).length > part(on).length * share + SLACK_MM) out.push([where, "the " + role + " is longer than what it lies on."]);
  }
  if (folding.lap.length && sum(folding.lap.map((role) => part(role).length)) - part(folding.lapOn).length <= SLACK_MM) {
    out.push([where, "the " + folding.lap.join(" and the ") + " must overlap, and they leave a gap."]);
  }
  for (const [role, past] of folding.beyond) {
    if (part(role).length <= part(past).length + SLACK_MM) out.push([where, "the " + role + " does not reach past the edge."]);
  }
  return out;
}

// -- what is typed in ----------------------------------------------------------------------------------------------

function inputProblems(tables, given) {
  const out = [], where = "[object]", unit = given.unit;
  for (const { name, least, most } of tables.measures) {
    const mm = given.mm[name];
    if (!(least <= mm && mm <= most)) out.push([where, name + " lies between " + length(least, unit) + " and " + length(most, unit) + "."]);
  }
  if (!out.length && tables.flapRoom) {
    const { name, strip, share } = tables.flapRoom;
    const room = given.mm[strip] * share - (tables.thick ? given.mm[tables.thick] / 2 : 0);
    if (given.mm[name] > room) out.push([where, "the " + name + " is longer than what it lies on, " + length(room, unit) + "."]);
  }
  return out;
}

// -- in words ------------------------------------------------------------------------------------------------------

function percent(fraction) { return String(Math.round(fraction * 1000) / 10 + 0) + " %"; }

function moved(stretch, eases) {
  if (eases) {
    const room = 1 / (1 + stretch) - 1, much = percent(Math.abs(room));
    return much === "0 %" ? "has no room to spare" : room > 0 ? "has " + much + " of room" : "is " + much + " too tight";
  }
  if ((-LEAST_SLACK <= stretch && stretch <= 0) || percent(stretch) === "0 %") return "fits without stretch";
  return stretch > 0 ? "stretches " + percent(stretch) : "is " + percent(-stretch) + " too large";
}

function length(mm, unit) {
  if (unit === "in") {
    const eighths = halfUp(mm / 25.4 * 8), whole = Math.floor(eighths / 8);
    let top = eighths % 8, foot = 8;
    while (top && top % 2 === 0) { top /= 2; foot /= 2; }
    return (whole || !top ? whole + " " : "") + (top ? top + "/" + foot + " " : "") + "in";
  }
  return unit === "cm" ? halfUp(mm) / 10 + " cm" : halfUp(mm) + " mm";
}

// A length that was measured, or made of such: a whole sixteenth of an inch stays one, so that sums come out.
function given(mm, unit) {
  const parts = halfUp(mm / 25.4 * 16), whole = Math.floor(parts / 16);
  if (unit !== "in" || parts % 2 === 0 || Math.abs(parts * 25.4 / 16 - mm) > 0.01) return length(mm, unit);
  return (whole ? whole + " " : "") + parts % 16 + "/16 in";
}

function fitLines(plan, unit) {
  return plan.inOrder.map((name) => {
    const inside = plan.between[name], outside = plan.overAll[name], bordered = outside > inside + 1e-9, { tables } = plan;
    let said = bordered || tables.holds ? tables.between[name] + " " + length(inside, unit) : length(inside, unit);
    const { sections } = plan, out = sections.length > 2 ? tables.beyond.map(([part]) => sections.at(part).name) : [];
    const laid = out.length && name === plan.inOrder[1] ? " the " + out.join(" and the ") + " laid out," : "";
    if (bordered) said += ", over all " + length(outside, unit) + "," + laid;
    return name + ": " + said + " for " + thingWords(plan, name, unit) + ": " + fitWords(plan, name);
  });
}

// The thing along a way round it: "162 mm", "162 mm and its thickness (172 mm)".
function thingWords(plan, name, unit) {
  const { tables } = plan, [plain, strip] = tables.ways, whole = plan.request.mm[name];
  const thick = tables.thick ? plan.request.mm[tables.thick] || 0 : 0;
  const bare = whole - (name === plain ? thick : name === strip ? thick / 2 : 0);
  return whole > bare ? given(bare, unit) + " and its thickness (" + given(whole, unit) + ")" : given(whole, unit);
}

function fitWords(plan, name) {
  const stretch = plan.stretch[name];
  if (plan.tables.holds) return moved(stretch, plan.tables.eases);
  const off = 1 / (1 + stretch) - 1, much = percent(Math.abs(off));
  return much === "0 %" ? "as wanted" : "comes out " + much + " " + (off > 0 ? "larger" : "smaller");
}
