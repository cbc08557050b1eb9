"use strict";
// The rows in words for other counts, and the yarn: counts grow evenly with the stitches, so a table tells them all.

// A text whose numbers grow with the repeats: parts and, between them, [at the first width, more for each repeat].
function grown(template, repeats) {
  if (typeof template === "string") return template;
  return template.map((part) => typeof part === "string" ? part : String(part[0] + part[1] * repeats)).join("");
}

// Every row of the plan: its entry in the table, its colour, the colour that follows. Null where the table has none.
function rowsIn(plan) {
  const { tables } = plan, out = [];
  let before = "";
  for (const [at, part] of plan.sections.entries()) {
    const { section } = part, whole = section.lead + section.repeat;
    for (let n = 0; n < part.rows; n++) {
      const nth = n < whole + section.repeat ? n : whole + (n - section.lead) % section.repeat;
      const entry = tables.rows[at + "." + (n < whole ? before : "") + "." + nth];
      if (entry === undefined) return null;
      out.push({ entry: tables.entries[entry], colour: colourOf(section, n), section: at });
    }
    before = String(written(section, part.rows - 1));
  }
  out.forEach((row, n) => { row.following = n + 1 < out.length && out[n + 1].colour !== row.colour ? out[n + 1].colour : ""; });
  return out;
}

function repeatsOf(plan) { return (plan.stitches - plan.tables.width) / plan.tables.of; }

// The row lines as the tool gathers them: rows alike together, repeats named by the rows they repeat.
function rowLines(plan, rows, terms) {
  const repeats = repeatsOf(plan), uk = terms === "UK" ? 1 : 0, said = plan.tables.said;
  const keys = rows.map((row) => [row.entry.ops, row.entry.count.map((t) => grown(said[t], repeats)).join("/"), row.entry.kinds.map(([, a, b]) => a + b * repeats).join(","), row.following].join("|"));
  const text = (n) => grown(said[rows[n].entry.words[rows[n].following][uk]], repeats) + grown(said[rows[n].entry.count[uk]], repeats);
  const side = (a) => plan.tables.firstSides[(a - 1) % 2];
  const sided = (a) => a <= 2 || (rows[a - 1].entry.raised && side(a) === "WS") ? " (" + side(a) + ")" : "";
  const label = (a, b) => a === b ? "Row " + a + sided(a) : "Rows " + a + "\u2013" + b;
  const out = [];
  for (const part of plan.sections) {
    const lines = [], end = part.first - 1 + part.rows;
    const push = (a, b, words) => lines.push(label(a + 1, b) + ": " + words);
    const plainly = (a, b) => push(a, b, text(a) + (cutAfter(plan, rows, b - 1) ? " Cut " + cutAfter(plan, rows, b - 1) + "." : ""));
    const again = (a, b, words, at, period) => push(a, b, words + cutsIn(plan, rows, a, b, at, period));
    for (let at = part.first - 1; at < end;) {
      let run = 1;
      while (at + run < end && keys[at + run] === keys[at]) run++;
      const [period, more] = run < 2 ? periodAt(keys, at, end) : [0, 0];
      if (run >= 2) { plainly(at, at + run); at += run; continue; }
      if (!more) { plainly(at, at + 1); at += 1; continue; }
      for (let n = at; n < at + period;) {
        let alike = 1;
        while (n + alike < at + period && keys[n + alike] === keys[n]) alike++;
        plainly(n, n + alike);
        n += alike;
      }
      const whole = Math.floor(more / period), left = more % period, first = at + 1, begin = at + period;
      again(begin, begin + whole * period, "Rep Rows " + first + "\u2013" + (first + period - 1) + (whole === 1 ? "" : whole === 2 ? " twice" : " " + whole + " times") + ".", at, period);
      if (left) again(begin + whole * period, begin + more, "Rep " + (left === 1 ? "Row " + first : "Rows " + first + "\u2013" + (first + left - 1)) + ".", at, period);
      at += period + more;
    }
    const last = out[out.length - 1];
    if (last && last[0] === part.name) last[1].push(...lines); else out.push([part.name, lines]);
  }
  return out;
}

// The colour that is cut after a row: one that comes again but is not carried, or no more; "" where it goes on.
function cutAfter(plan, rows, at) {
  const { colour } = rows[at];
  if (at + 1 >= rows.length || !colour || rows[at + 1].colour === colour) return "";
  const back = rows.findIndex((row, k) => k > at && row.colour === colour), between = back - at - 1;
  return back < 0 || between > plan.tables.yarn.mostCarried || between % 2 ? colour : "";
}

// What is cut after rows of a repeat though the rows that they repeat do not say so.
function cutsIn(plan, rows, a, b, at, period) {
  let said = "";
  for (let k = a; k < b; k++) {
    if (cutAfter(plan, rows, k) && !cutAfter(plan, rows, at + (k - at) % period)) said += " Cut " + cutAfter(plan, rows, k) + " after Row " + (k + 1) + ".";
  }
  return said;
}

function periodAt(keys, at, end) {
  for (let period = 2; period <= Math.min(24, Math.floor((end - at) / 2)); period++) {
    let more = 0;
    while (at + period + more < end && keys[at + more] === keys[at + period + more]) more++;
    if (more >= period) return [period, more];
  }
  return [0, 0];
}

function foundationLine(plan, terms) { return grown(plan.tables.said[plan.tables.begins[terms === "UK" ? 1 : 0]], repeatsOf(plan)); }

// -- yarn ----------------------------------------------------------------------------------------------------------

// What each colour takes, by the tool's own rule; null where the way round the piece is not told by a table.
function yarnOf(plan, rows) {
  const { tables } = plan, { yarn } = tables;
  if (!yarn) return null;
  const features = [plan.across, ...plan.sections.map((s) => s.length), plan.flap * plan.request.stitch];
  const edge = (weights) => sum(weights.map((w, n) => w * features[n]));
  const edges = { border: edge(yarn.border), seam: edge(yarn.seam), seams: yarn.seams };
  const areas = {}, add = (letter, area) => { areas[letter] = (areas[letter] || 0) + area; };
  const wide = plan.stitches * plan.request.stitch;
  let n = 0;
  for (const part of plan.sections) {
    for (const height of part.heights) {
      const named = [...new Set([rows[n].colour, ...rows[n].entry.within])];
      const more = yarn.weight !== null ? 1 : raisedFactor([rows[n]], repeatsOf(plan));
      for (const letter of named) add(letter, wide * height * more / named.length);
      n++;
    }
  }
  const { border } = plan.request;
  if (border && border.row) {
    const beyond = yarn.edging * (border.measured ? border.width : plan.request.stitch);
    add(yarn.borderColour, edges.border * (border.thick + beyond) + 4 * border.thick ** 2);
  }
  const ends = endsOf(plan, rows, edges);
  return yarn.letters.filter((letter) => areas[letter]).map((letter) => need(plan, letter, areas[letter], ends[letter] || 0, edges));
}

function raisedFactor(rows, repeats) {
  let plain = 0, given = 0;
  for (const { entry } of rows) {
    for (const [, a, b, own, flat] of entry.kinds) { given += (a + b * repeats) * own; plain += (a + b * repeats) * flat; }
  }
  return plain ? given / plain : 1;
}

function endsOf(plan, rows, edges) {
  const { yarn } = plan.tables, ends = {}, last = {}, add = (letter, many) => { ends[letter] = (ends[letter] || 0) + many; };
  rows.forEach((row, at) => {
    const gap = row.colour in last ? at - last[row.colour] - 1 : null;
    if (gap === null || gap % 2 || gap > yarn.mostCarried) add(row.colour, 2);
    for (const other of new Set(row.entry.within)) {
      if (other === row.colour) continue;
      if (at - (other in last ? last[other] : -2) > 1) add(other, 2);
      last[other] = at;
    }
    last[row.colour] = at;
  });
  if (plan.request.border) add(yarn.borderColour, 2);
  if (yarn.loop) add(yarn.borderColour, 2);
  if (edges.seams) add(yarn.borderColour, 2 * edges.seams);
  return ends;
}

function thickness(plan) {
  const usual = sum(plan.sections.map((s) => sum(s.heights.map((_, n) => s.section.heights[written(s.section, n)]))));
  const row = usual ? sum(plan.sections.map((s) => s.length)) / usual : plan.request.stitch;
  return Math.sqrt(plan.request.stitch * row);
}

function need(plan, letter, area, ends, edges) {
  const { yarn } = plan.tables, perGram = yarn.ballM && yarn.ballG ? yarn.ballM / yarn.ballG : null;
  const loose = ends * yarn.end / 1000 + (letter === yarn.borderColour ? yarn.sewing * edges.seam / 1000 : 0);
  const worked = area * yarn.perArea / thickness(plan) / 1000;
  if (yarn.weight === null) {
    const metres = worked + loose, least = worked * yarn.least + loose, most = worked * yarn.most + loose;
    const balls = yarn.ballM ? [Math.ceil(least / yarn.ballM), Math.ceil(most / yarn.ballM)] : null;
    return { letter, grams: perGram ? metres / perGram : null, metres, range: [least, most], balls, ends };
  }
  const [wide, high] = yarn.swatch || [plan.request.given.over, plan.request.given.over];
  const grams = area / (wide * high) * yarn.weight, weighed = perGram || (grams ? worked / grams : 0);
  const total = grams * (1 + yarn.spare) + (weighed ? loose / weighed : 0);
  const balls = yarn.ballG ? Math.ceil(total / yarn.ballG) : null;
  return { letter, grams: total, metres: perGram ? total * perGram : null, range: null, balls: balls === null ? null : [balls, balls], ends };
}

const GRAMS_PER_OUNCE = 28.349523125, METRES_PER_YARD = 0.9144;

// A line of the yarn's table: weight, length, balls; in ounces and yards where the unit is inches.
function needWords(found, estimated, unit) {
  const about = estimated ? "about " : "", inches = unit === "in";
  const grams = (g) => inches ? String(Math.round(g / GRAMS_PER_OUNCE * 10) / 10) + " oz" : g.toFixed(0) + " g";
  const metres = (m) => (inches ? m / METRES_PER_YARD : m).toFixed(0);
  const weight = found.grams === null ? "not known" : about + grams(found.grams), called = inches ? " yd" : " m";
  let long = found.metres === null ? "not known" : about + metres(found.metres) + called;
  if (found.range) long += " (" + metres(found.range[0]) + " to " + metres(found.range[1]) + called + ")";
  const balls = !found.balls ? "not known" : found.balls[0] === found.balls[1] ? String(found.balls[1]) : found.balls[1] + " (" + found.balls[0] + " may do)";
  return [weight, long, balls, String(found.ends)];
}
