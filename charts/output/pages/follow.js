"use strict";
// The page to work from: where the maker is, what stands there, and how she goes on.

(function () {
const told = JSON.parse(document.getElementById("data").textContent);
const $ = (id) => document.getElementById(id);
const LONGEST_UNDO = 100;
const TITLE = document.querySelector(".top h1").textContent;

// -- what is told ------------------------------------------------------------------------------------------------

// A row as it is packed: see the page's maker for the order.
function kind([name, numbered, words, count, right, left, rise, label, section, colour, wrong, rightward, round, proved,
  otherFace, first, items, times]) {
  return {
    name, numbered, words, count, look: [right, left], rise, label, section, colour, wrong, leftward: !rightward, round,
    proved, otherFace, repeat: times ? [first, items, times] : null,
  };
}

function rowsOf(part) {
  const kinds = part.kinds.map(kind), rows = [];
  let number = 0;
  const numbers = part.numbers.flatMap(([by, often]) => Array(often).fill(by)).map((by) => (number += by));
  unpacked(part.rows).forEach((at, n) => {
    const row = Object.assign({}, kinds[at], { number: numbers[n], n });
    if (row.numbered) row.name += " " + row.number;
    row.label = row.label >= 0 ? part.labels[row.label] : null;
    rows.push(row);
  });
  rows.forEach((row, n) => {
    row.nth = n && rows[n - 1].section === row.section ? rows[n - 1].nth + 1 : 1;
  });
  for (let n = rows.length - 1; n >= 0; n--) {
    rows[n].of = n + 1 < rows.length && rows[n + 1].section === rows[n].section ? rows[n + 1].of : rows[n].nth;
  }
  for (const [from, size, times] of part.repeats) {
    for (let n = from; n < from + size * times; n++) {
      rows[n].again = [rows[from].number, rows[from + size - 1].number, Math.floor((n - from) / size) + 1, times];
    }
  }
  return rows;
}

const parts = told.parts.map((part) => ({ part, rows: rowsOf(part), chart: null }));

// Every step from the beginning to the last line of the finishing.
const steps = [];
parts.forEach((each, p) => {
  for (let copy = 1; copy <= each.part.make; copy++) {
    if (each.part.begins >= 0) steps.push({ p, copy, row: -1 });
    for (let n = 0; n < each.rows.length; n++) steps.push({ p, copy, row: n });
  }
});
const finish = told.finishing.right || [];
finish.forEach((_, n) => steps.push({ finish: n }));

const stepRow = (step) => step.finish === undefined && step.row >= 0 ? parts[step.p].rows[step.row] : null;
const noteKey = (step) => step.finish === undefined ? step.p + "." + step.copy + "." + step.row : "f" + step.finish;

// -- what is kept ------------------------------------------------------------------------------------------------

const KEY = "hookfold:" + told.id;
const state = { step: 0, repeat: 1, hand: told.hand, terms: told.terms, light: "auto", notes: {}, undo: [], sizes: {} };
let keeps = true;

function load() {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) || "{}");
    if (Number.isInteger(kept.step) && steps[kept.step]) state.step = kept.step;
    if (Number.isInteger(kept.repeat) && kept.repeat > 0) state.repeat = kept.repeat;
    if (kept.hand === "left" || kept.hand === "right") state.hand = kept.hand;
    if (kept.terms === "US" || kept.terms === "UK") state.terms = kept.terms;
    if (["auto", "light", "dark"].includes(kept.light)) state.light = kept.light;
    if (kept.notes && typeof kept.notes === "object") state.notes = kept.notes;
    if (kept.sizes && typeof kept.sizes === "object") {
      for (const p in kept.sizes) if (kept.sizes[p] >= 4 && kept.sizes[p] <= 70) state.sizes[p] = +kept.sizes[p];
    }
    if (Array.isArray(kept.undo)) state.undo = kept.undo.filter((was) => Array.isArray(was) && steps[was[0]]);
  } catch (wrong) { keeps = false; }
}

function save() {
  try { localStorage.setItem(KEY, JSON.stringify(state)); } catch (wrong) { keeps = false; }
}

// -- saying ------------------------------------------------------------------------------------------------------

function said(at) {
  const both = at >= 0 ? told.said[at] : [""];
  return both[both.length > 1 && state.terms === "UK" ? 1 : 0];
}

function element(name, inside, attributes) {
  const made = document.createElement(name);
  if (inside !== undefined) made.textContent = inside;
  for (const key in attributes) made.setAttribute(key, attributes[key]);
  return made;
}

function stepName(step) {
  if (step.finish !== undefined) return "Finishing " + (step.finish + 1);
  const row = stepRow(step);
  return row ? row.name : "Beginning";
}

function stepWords(step) {
  if (step.finish !== undefined) return said(told.finishing[state.hand][step.finish]);
  const row = stepRow(step);
  return said(row ? row.words : parts[step.p].part.begins);
}

function capital(text) { return text.charAt(0).toUpperCase() + text.slice(1); }

// "Body, row 3 of 57. Rows 11 to 14 again: 2 of 14."
function whereWords(step) {
  if (step.finish !== undefined) return "Finishing, " + (step.finish + 1) + " of " + finish.length;
  const { part, rows } = parts[step.p], row = stepRow(step), out = [];
  if (part.name && (parts.length > 1 || part.make > 1 || part.name !== TITLE)) out.push(part.name + (part.make > 1 ? " (" + step.copy + " of " + part.make + ")" : ""));
  if (!row) return [...out, rows.length + (rows.length && rows[0].round ? " rounds" : " rows") + " follow"].join(", ");
  const section = part.sections[row.section], word = row.round ? "round" : "row";
  out.push((section ? capital(section) + ", " : "") + word + " " + row.nth + " of " + row.of);
  let words = out.join(", ");
  words = capital(words);
  if (row.again) {
    const [from, to, time, times] = row.again;
    words += ". " + capital(word) + (from === to ? " " + from : "s " + from + " to " + to) + ": time " + time + " of " + times;
  }
  return words;
}

// The words with what repeats marked: from the star to its "rep from *".
function fillWords(box, words, row) {
  box.replaceChildren();
  const star = words.indexOf("*"), end = words.search(/[;,.] rep from \*/);
  if (!row || !row.repeat || star < 0 || end < star || words.indexOf("*", star + 1) < end) {
    keepTogether(box, words);
    return;
  }
  const mark = element("mark");
  keepTogether(box, words.slice(0, star));
  keepTogether(mark, words.slice(star, end));
  box.append(mark);
  keepTogether(box, words.slice(end));
}

// Words in which a line never ends inside "ch 3", "2 dc", "ch-3 sp" or "sl st".
function keepTogether(box, words) {
  const parts = words.split(/(\(?\b(?:ch \d+|\d+ [a-z]+\d*(?:tog)?|[a-z]+-\d+(?: sps?)?|sl sts?)\b\)?[,;.]?)/i);
  parts.forEach((part, n) => box.append(n % 2 && part.length < 14 ? element("span", part, { class: "keep" }) : part));
}

// The type of the words: as large as lets them and their count stand in the window without scrolling.
const TYPES = ["usual", "smaller", "smallest"];

function fits() {
  return $("count").getBoundingClientRect().bottom + window.scrollY <= $("steps").getBoundingClientRect().top;
}

function fitType() {
  const { dataset } = document.documentElement;
  for (const type of TYPES) { dataset.type = type; if (fits()) return; }
}

// The chart's height: one for the whole page, lower where the longest row would not stand under it.
function fitPane() {
  const { dataset } = document.documentElement;
  let longest = steps[0];
  for (const step of steps) if (stepWords(step).length > stepWords(longest).length) longest = step;
  dataset.pane = "tall";
  write(longest);
  fitType();
  if (!fits()) dataset.pane = "low";
}

// -- showing -----------------------------------------------------------------------------------------------------

const pane = $("pane"), svg = $("chart");
let chart = null;

function chartOf(step) {
  if (step.finish !== undefined) return chart;
  const each = parts[step.p];
  if (each.part.shape === "none") return null;
  if (!each.chart) {
    each.chart = new Chart(pane, svg, each.part, each.rows);
    each.chart.size = state.sizes[step.p] || 0;
    each.chart.ontap = (n) => {
      const here = steps[state.step], copy = here.finish === undefined && here.p === step.p ? here.copy : 1;
      go(steps.findIndex((s) => s.p === step.p && s.copy === copy && s.row === n));
    };
  }
  return each.chart;
}

// What stands on the card of a step.
function write(step) {
  const row = stepRow(step);
  $("name").textContent = stepName(step);
  $("where").textContent = whereWords(step);
  fillWords($("words"), stepWords(step), row);
  $("count").replaceChildren();
  if (row) keepTogether($("count"), said(row.count));
  $("doubt").hidden = !row || Boolean(row.proved);
  chips(row, step);
  tally(row);
}

function show() {
  const step = steps[state.step];
  write(step);
  note(step);
  $("stage").hidden = $("zoom").hidden = !chartOf(step);
  fitType();
  const next = steps[state.step + 1];
  $("next").textContent = !next ? "Finished" : "Next " + unit(next);
  $("next").disabled = !next;
  $("back").disabled = state.step === 0;
  $("undo").disabled = !state.undo.length;
  const share = steps.length > 1 ? state.step / (steps.length - 1) : 1;
  $("far-bar").style.width = 100 * share + "%";
  $("far").setAttribute("aria-valuemax", steps.length - 1);
  $("far").setAttribute("aria-valuenow", state.step);
  $("far").setAttribute("aria-valuetext", "step " + (state.step + 1) + " of " + steps.length);
  $("place").value = placeText();
  picture(step);
}

// What a step is one of; the beginning of another piece is a step.
function unit(step) {
  const row = stepRow(step);
  return !row ? "step" : row.round ? "round" : "row";
}

function picture(step) {
  const found = chartOf(step);
  if (!found) return;
  if (found !== chart && chart) chart.clear();
  chart = found;
  const at = step.finish !== undefined ? found.rows.length : step.row;
  found.show(at, state.repeat, state.hand === "left");
}

function chips(row, step) {
  const box = $("chips");
  box.replaceChildren();
  if (!row) {
    const note_ = step.finish === undefined ? said(parts[step.p].part.note) : "";
    if (note_) box.append(element("span", note_));
    return;
  }
  if (!row.round || row.wrong) box.append(element("span", row.wrong ? "wrong side" : "right side"));
  const found = row.round && chartOf(step), turn = found ? found.turn(step.row, state.hand === "left") : 0;
  if (turn && turn !== (state.hand === "left" ? 1 : -1)) box.append(element("span", "on the chart " + (turn > 0 ? "clockwise" : "counter-clockwise")));
  if (row.otherFace) box.append(element("span", "on the chart as the right side shows it: front for back"));
  const colour = told.colours[row.colour];
  if (row.colour) {
    const chip = element("span", undefined, { class: "chip-yarn" });
    if (colour) {
      const dot = make("svg", { viewBox: "0 0 10 10", "aria-hidden": "true" });
      dot.append(make("rect", { width: 10, height: 10, fill: colour[1] }));
      chip.append(dot);
    }
    chip.append("yarn " + row.colour + (colour ? ", " + colour[0] : ""));
    box.append(chip);
  }
}

function tally(row) {
  $("tally").hidden = !row || !row.repeat;
  if (!row || !row.repeat) return;
  const times = row.repeat[2];
  if (row === stepRow(steps[state.step])) state.repeat = Math.min(state.repeat, times);
  $("rep-said").textContent = "Repeat " + state.repeat + " of " + times;
  $("rep-less").disabled = state.repeat <= 1;
  $("rep-more").disabled = state.repeat >= times;
}

function note(step) {
  const there = state.notes[noteKey(step)] || "";
  $("note").value = there;
  $("note-box").open = Boolean(there);
  $("note-box").firstElementChild.classList.toggle("has", Boolean(there));
  $("note-there").textContent = there ? " for this row" : "";
}

function tell(words) { $("live").textContent = words; }

function tellStep() {
  const step = steps[state.step], row = stepRow(step);
  const side = row && (!row.round || row.wrong) ? (row.wrong ? ", wrong side" : ", right side") : "";
  tell(stepName(step) + side + (row && row.colour ? ", yarn " + row.colour : "") + ". " + stepWords(step) + (row && row.count >= 0 ? " " + said(row.count) + "." : ""));
}

// -- going -------------------------------------------------------------------------------------------------------

function remember() {
  state.undo.push([state.step, state.repeat]);
  if (state.undo.length > LONGEST_UNDO) state.undo.shift();
}

function go(to, repeat) {
  if (!steps[to] || (to === state.step && (repeat || 1) === state.repeat)) return;
  remember();
  arrive(to, repeat || 1);
}

function arrive(to, repeat) {
  state.step = to;
  state.repeat = repeat;
  show();
  save();
  tellStep();
  if (window.scrollY > 0 && matchMedia("(max-width: 60rem)").matches) window.scrollTo(0, 0);
}

function repeatBy(by) {
  const row = stepRow(steps[state.step]);
  if (!row || !row.repeat) return;
  const to = state.repeat + by;
  if (to < 1 || to > row.repeat[2]) return;
  remember();
  state.repeat = to;
  tally(row);
  if (chart) { chart.repeat = to; chart.follow(); }
  $("undo").disabled = false;
  $("place").value = placeText();
  save();
  tell("Repeat " + to + " of " + row.repeat[2]);
}

function undo() {
  const was = state.undo.pop();
  if (was) arrive(was[0], was[1]);
}

// -- the place as a text -----------------------------------------------------------------------------------------

// "3f2a-37-2-k": which pattern, which step, which repeat, and a sign that tells a slip of the pen.
function placeText() {
  const place = [told.id.slice(0, 4), state.step, state.repeat].join("-");
  return place + "-" + checkSign(place);
}

function checkSign(text) {
  let sum = 7;
  for (const sign of text) sum = (sum * 31 + sign.charCodeAt(0)) % 961;
  return (sum % 31).toString(36);
}

function readPlace(text) {
  const found = /^([0-9a-f]{4})-(\d{1,6})-(\d{1,5})-([0-9a-z])$/.exec(text.trim().toLowerCase());
  if (!found || checkSign(found.slice(1, 4).join("-")) !== found[4]) return "This is not a place: copy it whole, as 3f2a-37-2-k.";
  if (found[1] !== told.id.slice(0, 4)) return "This place belongs to another pattern, or to an older page of this one.";
  if (!steps[+found[2]]) return "This page has no such step.";
  return [+found[2], Math.max(1, +found[3])];
}

// -- the list of rows and the other sheet ------------------------------------------------------------------------

function fillList() {
  const list = $("list");
  list.replaceChildren();
  let head = null;
  steps.forEach((step, at) => {
    const row = stepRow(step), name = step.finish !== undefined ? "Finishing"
      : [parts[step.p].part.name && parts[step.p].part.name + (parts[step.p].part.make > 1 ? ", " + step.copy : ""),
        row && capital(parts[step.p].part.sections[row.section])].filter(Boolean).join(": ");
    if (name && name !== head && (row || step.finish !== undefined)) {
      const item = element("li");
      item.append(element("h3", name));
      list.append(item);
      head = name;
    }
    const item = element("li"), button = element("button", undefined, { type: "button", "data-step": at });
    button.append(element("b", stepName(step)), element("span", stepWords(step)));
    if (state.notes[noteKey(step)]) item.className = "noted";
    if (at === state.step) button.setAttribute("aria-current", "step");
    item.append(button);
    list.append(item);
  });
}

function openRows() {
  fillList();
  $("jump-error").textContent = "";
  $("rows").showModal();
  const here = $("list").querySelector("[aria-current]");
  if (here) here.scrollIntoView({ block: "center" });
}

function fillSigns() {
  const uk = state.terms === "UK" ? 1 : 0;
  $("signs").replaceChildren(...told.key.map(([strokes, fills, [a, b, c, d], ...names]) => {
    const line = element("li"), drawn = make("svg", { viewBox: [a, b, c - a, d - b].join(" "), "aria-hidden": "true", "stroke-width": PEN });
    if (strokes) drawn.append(make("path", { d: "M0 0" + strokes }));
    if (fills) drawn.append(make("path", { d: "M0 0" + fills, class: "solid" }));
    const short = names[uk], name = names[2 + uk], words = names[4 + uk], text = element("span");
    text.append(element("strong", short), name ? " " + name : "", words ? (name ? ". " : " ") + words : "");
    line.append(drawn, text);
    return line;
  }), ...told.special.map((at) => element("li", said(at))), ...told.reading.map((at) => element("li", said(at))));
}

function settle() {
  const root = document.documentElement;
  root.dataset.hand = state.hand;
  root.dataset.light = state.light;
  for (const name of ["hand", "terms", "light"]) {
    for (const choice of document.getElementsByName(name)) choice.checked = choice.value === state[name];
  }
  fillSigns();
  $("stage").hidden = $("zoom").hidden = !parts.some(({ part }) => part.shape !== "none");
  fitPane();
}

function chosen(event) {
  const { name, value } = event.target;
  if (!["hand", "terms", "light"].includes(name)) return;
  state[name] = value;
  settle();
  show();
  save();
}

// -- hands on ----------------------------------------------------------------------------------------------------

function keyed(event) {
  const typing = event.target.closest("input, textarea, select, dialog");
  if (typing || event.ctrlKey || event.metaKey || event.altKey) return;
  const press = { " ": "Space", Enter: "Space" }[event.key];
  if (press && event.target.closest("button, summary, a")) return;
  const does = {
    ArrowRight: () => go(state.step + 1), " ": () => go(state.step + 1), ArrowLeft: () => go(state.step - 1),
    "+": () => repeatBy(1), "=": () => repeatBy(1), "-": () => repeatBy(-1), u: undo, U: undo,
    g: () => { openRows(); $("jump-to").focus(); }, G: () => { openRows(); $("jump-to").focus(); },
    n: openNote, N: openNote,
  }[event.key];
  if (!does || (event.target === pane && event.key.startsWith("Arrow"))) return;
  event.preventDefault();
  does();
}

function openNote() {
  $("note-box").open = true;
  $("note").focus();
}

// A swipe over the card: to the left goes on, to the right goes back.
function swiped(card) {
  let from = null;
  card.addEventListener("touchstart", (event) => {
    from = event.touches.length === 1 && !event.target.closest("textarea, button") ? event.touches[0] : null;
  }, { passive: true });
  card.addEventListener("touchend", (event) => {
    const to = event.changedTouches[0];
    if (!from || !to) return;
    const across = to.clientX - from.clientX, down = to.clientY - from.clientY;
    from = null;
    if (Math.abs(across) > 50 && Math.abs(across) > 2 * Math.abs(down)) go(state.step + (across < 0 ? 1 : -1));
  }, { passive: true });
}

let lock = null;
async function awake(on) {
  try {
    if (on) lock = await navigator.wakeLock.request("screen");
    else if (lock) { await lock.release(); lock = null; }
  } catch (wrong) { $("awake").checked = false; }
}

function jumped(event) {
  event.preventDefault();
  const number = parseInt($("jump-to").value, 10), here = steps[state.step];
  const same = (step) => stepRow(step) && stepRow(step).number === number;
  let to = steps.findIndex((step) => same(step) && step.p === here.p && step.copy === here.copy);
  if (to < 0) to = steps.findIndex(same);
  $("jump-error").textContent = to < 0 ? "There is no row " + $("jump-to").value.slice(0, 12) + " here." : "";
  if (to < 0) return;
  $("rows").close();
  go(to);
}

function taken(event) {
  event.preventDefault();
  const found = readPlace($("taken").value);
  $("take-said").textContent = typeof found === "string" ? found : "";
  if (typeof found === "string") return;
  $("more").close();
  go(found[0], found[1]);
}

async function copied() {
  $("place").select();
  try { await navigator.clipboard.writeText($("place").value); } catch (wrong) { document.execCommand("copy"); }
  tell("Place copied");
}

function noted() {
  const key = noteKey(steps[state.step]), text = $("note").value;
  if (text.trim()) state.notes[key] = text; else delete state.notes[key];
  save();
}

// The chart larger or smaller; the size is kept from row to row and from one day to the next.
function zoomBy(by) {
  if (!chart) return;
  chart.zoom(by);
  const p = parts.findIndex((each) => each.chart === chart);
  if (p >= 0) state.sizes[p] = Math.round(chart.size * 100) / 100;
  save();
}

function wire() {
  $("next").onclick = () => go(state.step + 1);
  $("back").onclick = () => go(state.step - 1);
  $("undo").onclick = undo;
  $("rep-more").onclick = () => repeatBy(1);
  $("rep-less").onclick = () => repeatBy(-1);
  $("larger").onclick = () => zoomBy(1.3);
  $("smaller").onclick = () => zoomBy(1 / 1.3);
  svg.addEventListener("click", (event) => chart && chart.tapped(event));
  $("note").addEventListener("input", noted);
  $("open-rows").onclick = openRows;
  $("open-more").onclick = () => { $("take-said").textContent = ""; $("more").showModal(); };
  for (const button of document.querySelectorAll("[data-close]")) button.onclick = () => button.closest("dialog").close();
  for (const dialog of document.querySelectorAll("dialog")) {
    dialog.addEventListener("click", (event) => { if (event.target === dialog) dialog.close(); });
  }
  $("list").addEventListener("click", (event) => {
    const button = event.target.closest("[data-step]");
    if (button) { $("rows").close(); go(+button.dataset.step); }
  });
  $("jump").addEventListener("submit", jumped);
  $("take").addEventListener("submit", taken);
  $("copy").onclick = copied;
  $("more").addEventListener("change", chosen);
  document.addEventListener("keydown", keyed);
  swiped($("card"));
  window.addEventListener("resize", () => {
    fitPane();
    write(steps[state.step]);
    fitType();
    if (chart) { chart.resize(); chart.scroll(); }
  });
  if ("wakeLock" in navigator) {
    $("awake-box").hidden = false;
    $("awake").onchange = (event) => awake(event.target.checked);
    document.addEventListener("visibilitychange", () => { if (!document.hidden && $("awake").checked) awake(true); });
  }
}

load();
document.body.classList.add("runs");
$("work").hidden = $("steps").hidden = false;
settle();
wire();
show();
save();
if (!keeps) {
  $("line").after(element("p", "This viewer does not keep your place: copy it from More before you close the page.", { class: "doubt" }));
}
})();
