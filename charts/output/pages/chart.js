"use strict";
// The chart: rows of glyphs from the steps that a walker takes along them, built when they are looked at.

const SVG = "http://www.w3.org/2000/svg";
const PEN = 10, STITCH = 100, MOST_KEPT = 80;

function make(name, attributes, inside) {
  const made = document.createElementNS(SVG, name);
  for (const key in attributes) made.setAttribute(key, attributes[key]);
  if (inside !== undefined) made.textContent = inside;
  return made;
}

// Numbers with what comes again told once: -n, k after n of them says that these n come k times more.
function unpacked(row) {
  const out = [];
  for (let at = 0; at < row.length; at++) {
    if (row[at] >= 0) { out.push(row[at]); continue; }
    const block = out.slice(row[at]);
    for (let more = row[++at]; more > 0; more--) for (const each of block) out.push(each);
  }
  return out;
}

// Relative path data turned by an angle in tenths of a degree.
function turned(path, tenths) {
  if (!tenths || !path) return path;
  const angle = tenths * Math.PI / 1800, cos = Math.cos(angle), sin = Math.sin(angle);
  const parts = path.match(/[a-z]|-?\d+/g);
  let out = "";
  for (let at = 0; at < parts.length; at++) {
    if (parts[at] >= "a") { out += parts[at]; continue; }
    const x = +parts[at], y = +parts[++at];
    const right = Math.round((x * cos - y * sin) * 10) / 10, down = Math.round((x * sin + y * cos) * 10) / 10;
    out += right + " " + down + " ";
  }
  return out;
}

class Looks {
  constructor(part) {
    this.part = part;
    this.walked = new Map();
    this.whole = new Map();
  }

  // The places of a row's glyphs, in the order of work: x, y, glyph and angle each.
  spots(look) {
    if (this.walked.has(look)) return this.walked.get(look);
    const { steps, looks } = this.part, out = [];
    let x = 0, y = 0, turn = 0;
    for (const taken of unpacked(looks[look])) {
      const [glyph, forward, aside, by] = steps[taken];
      const angle = turn * Math.PI / 1800, cos = Math.cos(angle), sin = Math.sin(angle);
      x += forward * cos - aside * sin;
      y += forward * sin + aside * cos;
      turn += by;
      out.push([x, y, glyph, turn]);
    }
    this.walked.set(look, out);
    return out;
  }

  // Strokes and fills of a whole row; those of the rows looked at last are kept.
  row(look, left) {
    const key = left ? -1 - look : look;
    if (!this.whole.has(key)) {
      if (this.whole.size >= MOST_KEPT) this.whole.delete(this.whole.keys().next().value);
      this.whole.set(key, this.paths(look, left));
    }
    return this.whole.get(key);
  }

  // Strokes and fills of a row, or of its items from one up to another, as that hand works it.
  paths(look, left, from, to) {
    const spots = this.spots(look);
    let strokes = "", fills = "";
    for (let at = from || 0; at < (to === undefined ? spots.length : Math.min(to, spots.length)); at++) {
      const [x, y, glyph, turn] = spots[at], shape = this.part.glyphs[glyph], other = left && shape.length > 2 ? 2 : 0;
      const start = "M" + Math.round((left ? -x : x) * 10) / 10 + " " + Math.round(y * 10) / 10;
      const angle = left ? -turn : turn;
      if (shape[other]) strokes += start + turned(shape[other], angle);
      if (shape[other + 1]) fills += start + turned(shape[other + 1], angle);
    }
    return [strokes, fills];
  }

  // The least and the most of x and of y in a row.
  box(look, left) {
    let a = Infinity, b = Infinity, c = -Infinity, d = -Infinity;
    for (const [x, y] of this.spots(look)) {
      const at = left ? -x : x;
      a = Math.min(a, at); c = Math.max(c, at); b = Math.min(b, y); d = Math.max(d, y);
    }
    return [a, b, c, d];
  }
}

// The least size of a stitch at which all rounds are shown whole, in pixels.
const SMALLEST = 6.5;

// A part's chart in its pane. `rows` are its rows as `Kind`s; `show` lights one up.
class Chart {
  constructor(pane, svg, part, rows) {
    Object.assign(this, { pane, svg, part, rows, looks: new Looks(part), left: false, at: -2, repeat: 0, size: 0 });
    this.level = part.shape === "rows";
    this.drawn = rows.filter((row) => row.look[0] >= 0).length;
    this.tops = [0];
    for (let n = 0; n < this.drawn; n++) this.tops.push(this.tops[n] - rows[n].rise);
    this.most = Math.max(1, ...rows.slice(0, this.drawn).map((row) => this.looks.spots(row.look[0]).length));
    this.ontap = null;
    this.chunk = Math.max(5, Math.min(40, Math.floor(1600 / this.most)));
  }

  look(row) { return row.look[this.left ? 1 : 0]; }

  clear() {
    this.svg.replaceChildren();
    this.groups = new Map();
    this.window = null;
    this.at = -2;
  }

  show(at, repeat, left) {
    if (left !== this.left || !this.groups) {
      this.left = left;
      this.clear();
      this.measure();
    }
    const before = this.at, from = before < 0 ? 0 : before;
    this.at = Math.min(at, this.drawn);
    this.repeat = repeat;
    this.fill();
    for (const [n, group] of this.groups) this.tone(n, group);
    this.single();
    this.mark();
    this.label();
    if (before !== this.at || !this.kept) this.scroll(from);
    this.kept = true;
  }

  // How far the piece reaches, in units.
  measure() {
    const boxes = new Map();
    let [a, b, c, d] = [Infinity, Infinity, -Infinity, -Infinity];
    const add = (look, y) => {
      if (!boxes.has(look)) boxes.set(look, this.looks.box(look, this.left));
      const box = boxes.get(look);
      a = Math.min(a, box[0]); b = Math.min(b, box[1] + y); c = Math.max(c, box[2]); d = Math.max(d, box[3] + y);
    };
    add(this.part.ground[this.left ? 1 : 0], 0);
    if (this.part.again) add(this.part.again[this.left ? 1 : 0], 0);
    for (let n = 0; n < this.drawn; n++) add(this.look(this.rows[n]), this.level ? this.tops[n] : 0);
    const over = this.part.shape === "turned" ? 160 : 70;
    this.box = [a - over, b - over, c + over, d + over + 10];
  }

  // The rows that stand in the picture, round the one in work.
  span() {
    if (this.drawn <= 2 * this.chunk) return [-1, this.drawn];
    const first = Math.max(0, Math.floor((Math.min(this.at, this.drawn - 1) - this.chunk / 2) / this.chunk) * this.chunk);
    return [first === 0 ? -1 : first, Math.min(this.drawn, first + 2 * this.chunk)];
  }

  fill() {
    const [first, last] = this.span();
    if (this.window && this.window[0] === first && this.window[1] === last) return;
    this.window = [first, last];
    for (const [n, group] of this.groups) if (n < first || n >= last) { group.remove(); this.groups.delete(n); }
    for (let n = first; n < last; n++) if (!this.groups.has(n)) this.groups.set(n, this.svg.appendChild(this.build(n)));
    const [a, b, c, d] = this.box;
    const aside = this.level ? Math.round(90 + 26 * Math.max(55, Math.min(150, 1250 / (this.size || 22))) / 10) : 0;
    const top = this.level ? this.tops[last] - 90 : b, foot = this.level ? this.tops[Math.max(first, 0)] + 90 : d;
    this.view = [a - aside, top, c - a + 2 * aside, foot - top];
    this.svg.setAttribute("viewBox", this.view.join(" "));
    this.resize();
  }

  resize() {
    const wide = this.pane.clientWidth || 360, high = this.pane.clientHeight || 280;
    const whole = Math.min(wide / this.view[2], high / this.view[3]) * STITCH;
    // Rounds are shown whole, also small on a phone: cut at its edge nobody finds where one goes on.
    if (!this.size) this.size = !this.level && whole > SMALLEST ? Math.min(whole, 34) : Math.max(this.level ? 20 : 13, Math.min(whole, 34));
    this.svg.setAttribute("width", Math.round(this.view[2] * this.size / STITCH));
    this.svg.setAttribute("height", Math.round(this.view[3] * this.size / STITCH));
    const type = Math.max(55, Math.min(150, 1250 / this.size));
    for (const text of this.svg.querySelectorAll(".at")) text.setAttribute("font-size", Math.round(type));
  }

  zoom(by) {
    const { pane } = this, x = (pane.scrollLeft + pane.clientWidth / 2) / this.size;
    const y = (pane.scrollTop + pane.clientHeight / 2) / this.size;
    this.size = Math.max(4, Math.min(70, this.size * by));
    this.resize();
    pane.scrollLeft = x * this.size - pane.clientWidth / 2;
    pane.scrollTop = y * this.size - pane.clientHeight / 2;
  }

  build(n) {
    const row = this.rows[n], look = n < 0 ? this.part.ground[this.left ? 1 : 0] : this.look(row);
    const y = this.level && n >= 0 ? this.tops[n] : 0;
    const group = make("g", { "data-row": n, transform: "translate(0 " + y + ")" });
    if (this.level && n >= 0) {
      const [a, , c] = this.box;
      group.append(make("rect", { class: "band", x: a - 20, y: -row.rise, width: c - a + 40, height: row.rise, visibility: "hidden" }));
    }
    if (n < 0 && this.part.again) this.ink(group, this.looks.paths(this.part.again[this.left ? 1 : 0], this.left), "again");
    this.ink(group, this.looks.row(look, this.left), "");
    if (n >= 0) this.number(group, row);
    return group;
  }

  // What lies behind the row in work, as if a marker pen had gone along it: a band where rows lie level.
  glow(group, paths, name) {
    const glow = make("path", { d: paths.join(""), class: "glow " + name });
    this.glows.push(glow);
    group.insertBefore(glow, this.level ? group.children[1] : group.firstChild);
  }

  ink(group, [strokes, fills], name) {
    if (strokes) group.append(make("path", { d: strokes, class: name }));
    if (fills) group.append(make("path", { d: fills, class: name + " solid" }));
  }

  // A row's number where the row begins, with the way it goes; of a round inside it.
  number(group, row) {
    const says = (row.number || "") + (row.colour ? " " + row.colour : "");
    if (this.level) {
      const leftward = row.leftward !== this.left;
      const x = leftward ? this.box[2] + 45 : this.box[0] - 45;
      const text = leftward ? "← " + says : says + " →";
      group.append(make("text", { class: "at", x, y: -row.rise / 2 + 20, "text-anchor": leftward ? "start" : "end" }, text));
    } else {
      const [x, y] = this.part.shape === "turned" || !row.label ? this.before(row) : this.left ? row.label.slice(2) : row.label;
      group.append(make("text", { class: "at", x, y: y + 20, "text-anchor": "middle" }, says));
    }
  }

  // A place before a row's first stitch, against the way that the row goes.
  before(row) {
    const [[x, y], next] = this.looks.spots(this.look(row)), [a, b] = next || [x - 1, y];
    const far = 95 / Math.max(1, Math.hypot(a - x, b - y));
    const at = [x + (x - a) * far, y + (y - b) * far];
    return this.left ? [-at[0], at[1]] : at;
  }

  tone(n, group) {
    const row = this.rows[n], side = n >= 0 && row.wrong ? " ws" : "";
    const when = n === this.at && n >= 0 ? " lit" : n > this.at ? " later" : "";
    const name = "row" + side + when;
    if (group.getAttribute("class") === name) return;
    group.setAttribute("class", name);
    if (this.level && n >= 0) group.firstChild.setAttribute("visibility", n === this.at ? "visible" : "hidden");
  }

  // Rounds that lie in one place, as they are worked alike, are seen once: that in work, else the first of them.
  single() {
    if (this.level) return;
    const now = this.rows[this.at], seen = new Map();
    if (now && this.at < this.drawn) seen.set(this.look(now), this.at);
    for (const [n, group] of this.groups) {
      if (n < 0) continue;
      const look = this.look(this.rows[n]);
      if (!seen.has(look)) seen.set(look, n);
      group.setAttribute("visibility", seen.get(look) === n ? "visible" : "hidden");
    }
  }

  // The row in work and, stronger, the stitches of its repeat, with a bracket under them where rows lie level.
  mark() {
    const row = this.rows[this.at], group = this.groups.get(this.at);
    for (const glow of this.glows || []) glow.remove();
    this.glows = [];
    if (!row || !group) return;
    const look = this.look(row);
    if (row.repeat) {
      const [first, items] = row.repeat, from = first + (this.repeat - 1) * items;
      this.glow(group, this.looks.paths(look, this.left, from, from + items), "here");
      if (this.level) {
        const xs = this.looks.spots(look).slice(from, from + items).map(([x]) => this.left ? -x : x);
        const a = Math.min(...xs) - 45, b = Math.max(...xs) + 45;
        this.glows.push(group.appendChild(make("path", { class: "under", d: "M" + a + "-18V0H" + b + "V-18" })));
      }
    }
    if (!this.level) this.glow(group, this.looks.row(look, this.left), "");
  }

  label() {
    const row = this.rows[this.at];
    this.svg.setAttribute("aria-label", row ? "Chart with " + row.name + " lit up" : this.at < 0 ? "Chart, the beginning" : "Chart, all rows worked");
  }

  // Where the eye should be: the repeat in work, else the place where the row begins.
  eye() {
    const row = this.rows[this.at];
    if (!row && this.at > 0) return this.level ? [0, this.tops[this.drawn]] : [0, 0];
    if (!row) return this.level ? [this.left ? this.box[0] : this.box[2], 0] : [0, 0];
    const spots = this.looks.spots(this.look(row)), [first, items] = row.repeat || [0, 1];
    const from = row.repeat && this.repeat > 1 ? first + (this.repeat - 1) * items : 0;
    const [x, y] = spots[Math.min(from, spots.length - 1)];
    return [this.left ? -x : x, this.level ? this.tops[this.at] - row.rise / 2 : y];
  }

  // Which way the stitches of a round lie one after the other: 1 clockwise, -1 counter-clockwise, 0 where rows lie level.
  turn(at, left) {
    const row = this.rows[at];
    if (this.part.shape !== "rounds" || !row || at >= this.drawn) return 0;
    const spots = this.looks.spots(this.look(row)), [a, b, c, d] = this.looks.box(this.look(row), false);
    const x = (a + c) / 2, y = (b + d) / 2;
    let about = 0;
    for (let n = 1; n < spots.length; n++) {
      const [p, q] = spots[n - 1], [u, v] = spots[n];
      about += (p - x) * (v - y) - (q - y) * (u - x);
    }
    return Math.sign(left ? -about : about);
  }

  // The middle of the round in work where it fits into the pane, so that it does not jump from repeat to repeat.
  middle() {
    const row = this.rows[this.at], by = this.size / STITCH;
    if (this.level || !row || this.at >= this.drawn || this.at < 0) return null;
    const [a, b, c, d] = this.looks.box(this.look(row), this.left);
    const whole = (c - a + STITCH) * by <= this.pane.clientWidth && (d - b + STITCH) * by <= this.pane.clientHeight;
    return whole ? [(a + c) / 2, (b + d) / 2] : null;
  }

  scroll() {
    const [x, y] = this.middle() || this.eye(), by = this.size / STITCH, { pane } = this;
    const wide = this.view[2] * by, high = this.view[3] * by;
    const right = (x - this.view[0]) * by, down = (y - this.view[1]) * by;
    if (wide > pane.clientWidth) {
      // Near an end of a row its number is in sight, too.
      const near = this.level ? pane.clientWidth * 0.8 : 0;
      const to = right < near ? 0 : right > wide - near ? wide : right - pane.clientWidth / 2;
      pane.scrollLeft = to;
    }
    if (high > pane.clientHeight) pane.scrollTop = down - pane.clientHeight * (this.level ? 0.55 : 0.5);
  }

  follow() {
    this.mark();
    this.scroll();
  }

  // The row that was tapped: of rows in level the one at that height, else that of the nearest stitch.
  tapped(event) {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.svg.getScreenCTM().inverse());
    let best = -1, near = 90;
    for (const n of this.groups.keys()) {
      if (n < 0) continue;
      if (this.level) { if (at.y <= this.tops[n] && at.y > this.tops[n + 1]) best = n; continue; }
      for (const [x, y] of this.looks.spots(this.look(this.rows[n]))) {
        const away = Math.hypot((this.left ? -x : x) - at.x, y - at.y);
        if (away < near) { near = away; best = n; }
      }
    }
    if (best >= 0 && best !== this.at && this.ontap) this.ontap(best);
  }
}
