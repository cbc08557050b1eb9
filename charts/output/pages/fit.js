"use strict";
// The page that fits a pattern: reads what was typed, reckons, shows.

const tables = JSON.parse(document.getElementById("data").textContent);
const MM = { mm: 1, cm: 10, in: 25.4, m: 1000 };
const $ = (id) => document.getElementById(id);
let unit = tables.unit, terms = tables.terms, fitted = null;

function element(name, inside, attributes) {
  const made = document.createElement(name);
  if (inside !== undefined) made.textContent = inside;
  for (const key in attributes) made.setAttribute(key, attributes[key]);
  return made;
}

// -- what is typed -----------------------------------------------------------------------------------------------

// "250", "25,5", "9 7/8", "9.75 in": millimetres; NaN for what is no length. Without a unit it is in the one chosen.
function lengthIn(text) {
  const spelled = { "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8" };
  const plain = text.replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => spelled[sign]).trim().toLowerCase();
  const found = /^(?:(\d+)\s+(\d+)\s*\/\s*(\d+)|(\d+)\s*\/\s*(\d+)|(\d+(?:[.,]\d+)?))\s*(mm|cm|m|metres?|meters?|in|inch|inches|"|″)?$/.exec(plain);
  if (!found) return NaN;
  const by = MM[{ '"': "in", "″": "in", inch: "in", inches: "in", metre: "m", metres: "m", meter: "m", meters: "m" }[found[7]] || found[7] || unit];
  if (found[6]) return parseFloat(found[6].replace(",", ".")) * by;
  const [whole, top, foot] = found[1] ? [+found[1], +found[2], +found[3]] : [0, +found[4], +found[5]];
  return foot ? (whole + top / foot) * by : NaN;
}

// A length written by the page is kept whole, however it is rounded where it stands.
function writeLength(input, mm) {
  input.value = shown(mm);
  Object.assign(input.dataset, { mm, text: input.value });
}

function readLength(input) { return input.value === input.dataset.text ? +input.dataset.mm : lengthIn(input.value); }

function numberIn(text) {
  const plain = text.trim().replace(",", ".");
  return /^\d+(\.\d+)?$/.test(plain) ? parseFloat(plain) : NaN;
}

function shown(mm) {
  if (unit === "in") return length(mm, "in").replace(" in", "");
  return String(Math.round(mm / MM[unit] * 100) / 100);
}

//: The fields of the form: how each is called, read, and bounded.
const fields = [];

function field(box, id, label, hint, value, kind) {
  const line = element("div", undefined, { class: "field" }), input = element("input", undefined, { id, inputmode: unit === "in" ? "text" : "decimal" });
  line.append(element("label", label, { for: id }), input);
  if (kind === "length") line.append(element("span", unit, { class: "unit", "aria-hidden": "true" }));
  if (hint) { input.setAttribute("aria-describedby", id + "-how"); line.append(element("p", hint, { id: id + "-how", class: "hint" })); }
  box.append(line);
  fields.push({ id, input, kind, own: value });
}

function build() {
  for (const { name, asks, how, mm } of tables.measures) field($("measures"), "mm-" + name, asks, how, mm, "length");
  const own = tables.gauge;
  field($("gauge"), "stitches", "Stitches", "", own.stitches, "number");
  field($("gauge"), "rows-of", "Rows", "leave it empty where you did not count: their height is then an estimate", own.rows, "maybe");
  field($("gauge"), "over", "Counted over", "", own.over, "length");
  if (tables.border) {
    if (own.borderStitches !== null) field($("gauge"), "border-stitches", "Stitches of the border along an edge, over the same", "", own.borderStitches, "maybe");
    if (own.borderRows !== null) field($("gauge"), "border-rows", "Rounds of the border over the same", "", own.borderRows, "maybe");
  }
  own.sections.forEach((rows, n) => {
    if (rows !== null) field($("gauge"), "section-" + n, "Rows of “" + tables.sections[n].name + "” over the same", "", rows, "maybe");
  });
}

function fill() {
  for (const { input, kind, own } of fields) {
    if (kind === "length") writeLength(input, own); else input.value = own === null ? "" : String(own);
  }
}

// What was typed, as sizing is asked it; null where a field cannot be read.
function givenNow() {
  const value = {};
  let whole = true;
  for (const { id, input, kind } of fields) {
    const empty = kind === "maybe" && !input.value.trim();
    value[id] = empty ? null : kind === "length" ? readLength(input) : numberIn(input.value);
    const wrong = !empty && (Number.isNaN(value[id]) || (kind !== "length" && !(value[id] >= 0.5 && value[id] <= 400)) || (kind === "length" && !(value[id] >= 1 && value[id] <= 10000)));
    input.setAttribute("aria-invalid", String(wrong));
    whole = whole && !wrong;
  }
  if (!whole) return null;
  const mm = {};
  for (const { name } of tables.measures) mm[name] = value["mm-" + name];
  const maybe = (id) => id in value ? value[id] : null;
  return {
    mm, unit, stitches: value.stitches, rows: value["rows-of"], over: value.over, borderStitches: maybe("border-stitches"),
    borderRows: maybe("border-rows"), sectionRows: tables.gauge.sections.map((_, n) => maybe("section-" + n)),
  };
}

// -- what is shown -----------------------------------------------------------------------------------------------

function reckon() {
  const given = givenNow();
  const found = given ? sizeOf(tables, given) : { problems: [["", "A field cannot be read: write a number, or a length as 250 mm, 25 cm or 9 7/8 in."]] };
  const rows = found.plan && !found.problems.length && repeatsOf(found.plan) >= 0 ? rowsIn(found.plan) : null;
  fitted = Object.assign(found, { rows });
  show(found, rows);
}

function show({ problems, plan }, rows) {
  $("wrong").replaceChildren(...problems.map(([where, says]) => element("p", (where ? where + ": " : "") + says)));
  $("right").hidden = problems.length > 0;
  if (problems.length) return;
  $("counts").textContent = "Chain " + plan.foundation + ", " + plan.stitches + " stitches a row, " + plan.rows + " rows.";
  $("fit").replaceChildren(...fitLines(plan, unit).map((line) => element("li", line.charAt(0).toUpperCase() + line.slice(1))));
  $("sections").replaceChildren(...plan.sections.map((part) => tableRow([part.name, part.rows, part.first + " to " + (part.first + part.rows - 1), length(part.length, unit)])));
  $("notes").replaceChildren(...notes(plan).map((says) => element("li", says)));
  showYarn(plan, rows);
  showRows(plan, rows);
}

function tableRow(cells) {
  const row = element("tr");
  cells.forEach((cell, n) => {
    const made = element(n ? "td" : "th", n || typeof cell !== "object" ? cell : undefined, n ? {} : { scope: "row" });
    if (typeof cell === "object") made.append(...cell);
    row.append(made);
  });
  return row;
}

function notes(plan) {
  const { given, row, border } = plan.request, out = [...tables.guessed];
  if (given.rows === null) out.unshift("Rows are taken to be " + row.toFixed(1) + " mm high, from the stitch's width, for no rows are given: an estimate.");
  if (border && given.borderRows === null) out.push("A border round is taken to be " + border.row.toFixed(1) + " mm high: an estimate.");
  if (!plan.liked) out.push("Some rows fall on another side of the piece than the pattern marks or likes.");
  if (plan.flap) out.push("The first and the last " + plan.flap + " stitches of every row are the flaps.");
  return out;
}

function showYarn(plan, rows) {
  const needs = rows && yarnOf(plan, rows);
  $("yarn-box").hidden = !needs;
  if (!needs) return;
  const estimated = tables.yarn.weight === null;
  $("yarn").replaceChildren(...needs.map((found) => tableRow([yarnName(found.letter), ...needWords(found, estimated, tables.yarn.unit || unit)])));
}

function yarnName(letter) {
  const colour = tables.colours[letter];
  if (!colour) return "the yarn";
  const dot = document.createElementNS("http://www.w3.org/2000/svg", "svg"), ink = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  dot.setAttribute("class", "dot");
  dot.setAttribute("aria-hidden", "true");
  for (const [key, value] of [["width", "100%"], ["height", "100%"], ["fill", colour[1]]]) ink.setAttribute(key, value);
  dot.append(ink);
  return [dot, letter + " (" + colour[0] + ")"];
}

function showRows(plan, rows) {
  const box = $("rows");
  box.replaceChildren();
  if (!rows) {
    box.append(element("p", "The rows of this size cannot be told here; write the pattern for it with the tool."));
    return;
  }
  box.append(element("p", foundationLine(plan, terms)));
  for (const [name, lines] of rowLines(plan, rows, terms)) {
    box.append(element("h4", name.charAt(0).toUpperCase() + name.slice(1)), ...lines.map((line) => element("p", line)));
  }
}

function chosen(event) {
  const { name, value } = event.target;
  if (name === "terms") terms = value;
  if (name === "unit") {
    const given = fields.filter(({ kind }) => kind === "length").map(({ input }) => [input, readLength(input)]);
    unit = value;
    for (const [input, mm] of given) if (!Number.isNaN(mm)) writeLength(input, mm);
    for (const each of document.querySelectorAll(".unit")) each.textContent = unit;
    for (const { input } of fields) input.setAttribute("inputmode", unit === "in" ? "text" : "decimal");
  }
  if (name === "terms" || name === "unit") reckon();
}

build();
for (const [name, value] of [["unit", unit], ["terms", terms]]) {
  for (const choice of document.getElementsByName(name)) choice.checked = choice.value === value;
}
fill();
$("given").addEventListener("input", (event) => { if (event.target.type !== "radio") reckon(); });
$("given").addEventListener("change", chosen);
$("given").addEventListener("submit", (event) => event.preventDefault());
$("reset").onclick = () => { fill(); reckon(); };
reckon();
