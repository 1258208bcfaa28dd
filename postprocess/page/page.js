// Draws the pass of each run from the data in the page: the coupon between the tools on a
// canvas, the point on the force chart and the figures beside it, all at one travel.
"use strict";
(() => {
  const mmPerInch = 25.4;
  const newtonsPerKip = 4448.2216152605;

  const bytesOf = (text) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  const wordsOf = (text) => {
    const bytes = bytesOf(text);
    const words = new Uint16Array(bytes.length / 2);
    for (let i = 0; i < words.length; ++i) words[i] = bytes[2 * i] | (bytes[2 * i + 1] << 8);
    return words;
  };

  // Two families of units, each with the digits a shop would write.
  const threeDigits = (value) => {
    const size = Math.abs(value);
    if (size === 0) return "0";
    return value.toFixed(size >= 99.95 ? 0 : size >= 9.995 ? 1 : size >= 0.9995 ? 2 : 3);
  };
  const lengths = {
    metric: (mm) => mm.toFixed(1) + " mm",
    us: (mm) => (mm / mmPerInch).toFixed(3) + " in",
  };
  const forces = {
    metric: (n) => threeDigits(n / 1000) + " kN",
    us: (n) => threeDigits(n / newtonsPerKip) + " kip",
  };
  const inBoth = (texts, first, value) =>
    texts[first](value) + " (" + texts[first === "metric" ? "us" : "metric"](value) + ")";

  // The colour at a share of the map, blended between its stops.
  const colourOf = (map) => {
    const colours = [];
    for (let i = 0; i < 256; ++i) {
      const place = (i / 255) * (map.stops.length - 1);
      const low = Math.min(Math.floor(place), map.stops.length - 2);
      const part = place - low;
      const mix = (shift) => {
        const a = (map.stops[low] >> shift) & 255;
        const b = (map.stops[low + 1] >> shift) & 255;
        return Math.round(a + part * (b - a));
      };
      colours.push(`rgb(${mix(16)},${mix(8)},${mix(0)})`);
    }
    return colours;
  };

  // Value of a column of the record at a travel, between the two steps around it.
  const valueAt = (record, column, travel) => {
    const way = record.travel;
    const values = record[column];
    if (values.length === 0) return NaN;
    let i = 0;
    while (i < way.length - 1 && way[i + 1] < travel) ++i;
    if (i >= way.length - 1 || travel <= way[i]) return values[Math.min(i, values.length - 1)];
    const part = (travel - way[i]) / (way[i + 1] - way[i]);
    return values[i] + part * (values[i + 1] - values[i]);
  };

  class Viewer {
    constructor(root, data) {
      this.root = root;
      this.data = data;
      this.canvas = root.querySelector(".stage > canvas");
      this.slider = root.querySelector(".travel");
      this.button = root.querySelector(".play");
      this.field = root.querySelector(".field");
      this.chart = root.querySelector("svg.chart");
      this.cells = wordsOf(data.cells);
      this.edges = wordsOf(data.edges);
      this.shapes = data.shapes.map((shape) => ({
        travel: shape.travel,
        released: shape.released,
        low: shape.low,
        points: wordsOf(shape.points),
        axial: bytesOf(shape.axial),
        plastic: bytesOf(shape.plastic),
        solid: shape.solid,
        solid_axial: shape.solid_axial,
        solid_plastic: shape.solid_plastic,
      }));
      this.colours = { axial: colourOf(data.axial_map), plastic: colourOf(data.plastic_map) };
      this.loaded = this.shapes.filter((shape) => !shape.released);
      this.freed = this.shapes.find((shape) => shape.released);
      if (this.loaded.length === 0) this.loaded = this.shapes;
      this.end = Math.max(this.loaded[this.loaded.length - 1].travel, ...data.record.travel.slice(-1));
      // After the last travel a short stretch of the slider lets the coupon spring free.
      this.tail = this.freed ? 0.05 * this.end : 0;
      this.hold = Math.ceil(this.end * 10 - 1e-6) / 10; // the slider's last stop in the tools
      this.slider.max = (Math.ceil((this.hold + this.tail) * 10) / 10).toFixed(1);
      this.playing = 0;
      this.strip();
      this.setUpSolid();

      this.slider.addEventListener("input", () => { this.stop(); this.show(); });
      this.button.addEventListener("click", () => this.toggle());
      this.field.addEventListener("change", () => this.show());
      root.addEventListener("pointerdown", () => { Viewer.current = this; });
      root.addEventListener("focusin", () => { Viewer.current = this; });
      new ResizeObserver(() => this.show()).observe(this.canvas);
      this.go(data.start);
    }

    // A coupon of real width can be turned, where the browser draws in space; else the middle
    // of its width is all there is.
    setUpSolid() {
      this.solid = null;
      const box = this.root.querySelector(".solid");
      if (!box || !this.data.solid) return;
      const choice = this.root.querySelector(".view");
      const flat = () => {
        this.solid = null;
        choice.closest("label").hidden = true;
        this.root.closest(".watch").querySelector(".no-space").hidden = false;
        choice.value = "middle";
        this.choose();
        this.show();
      };
      choice.addEventListener("change", () => { this.choose(); this.show(); });
      // A browser draws only some views in space at once: one far down the page can wait.
      const watch = new IntersectionObserver((seen) => {
        if (!seen.some((entry) => entry.isIntersecting)) return;
        watch.disconnect();
        if (!Viewer.drawsInSpace()) return flat();
        try {
          this.data.solid.mirrored = this.data.mirrored;
          this.solid = new throughbendSolid(box, this.data.solid, this.colours, flat);
        } catch {
          return flat();
        }
        choice.closest("label").hidden = false;
        this.choose();
        this.show();
      }, { rootMargin: "400px" });
      watch.observe(this.root);
    }

    static drawsInSpace() {
      if (Viewer.space === undefined) Viewer.space = Boolean(document.createElement("canvas").getContext("webgl2"));
      return Viewer.space;
    }

    get inSpace() { return this.solid !== null && this.root.querySelector(".view").value === "space"; }

    choose() {
      this.canvas.hidden = this.inSpace;
      this.root.querySelector(".solid").hidden = !this.inSpace;
    }

    // Marks below the slider where the coupon touches what it should not.
    strip() {
      const strip = this.root.querySelector(".strip");
      const most = Number(this.slider.max);
      for (const event of this.data.events) {
        const mark = document.createElement("i");
        mark.style.left = (100 * event.from) / most + "%";
        mark.style.width = (100 * (event.to - event.from)) / most + "%";
        mark.title = event.name;
        strip.append(mark);
      }
      this.root.querySelector(".contact").hidden = this.data.events.length === 0;
    }

    // What touches at a travel, in words.
    contacts(travel, free) {
      const now = this.data.events.filter((e) => free === 0 && travel >= e.from - 0.05 && travel <= e.to + 0.05);
      return now.map((e) => e.name).join("; ") || "none here";
    }

    get place() { return Number(this.slider.value); }

    go(place) {
      this.slider.value = place.toFixed(1);
      this.show();
    }

    step(count) {
      this.stop();
      this.go(Math.min(Math.max(this.place + count, 0), Number(this.slider.max)));
    }

    toggle() {
      if (this.playing) this.stop();
      else this.play();
    }

    play() {
      const seconds = 9; // for the whole pass
      const most = Number(this.slider.max);
      let place = this.place >= most ? 0 : this.place;
      let before = performance.now();
      this.button.textContent = "Stop";
      const frame = (now) => {
        place += ((now - before) / 1000 / seconds) * most;
        before = now;
        this.go(Math.min(place, most));
        if (place >= most) this.stop();
        else this.playing = requestAnimationFrame(frame);
      };
      this.playing = requestAnimationFrame(frame);
    }

    stop() {
      if (this.playing) cancelAnimationFrame(this.playing);
      this.playing = 0;
      this.button.textContent = "Play";
    }

    // The two shapes around a place of the slider and the share of the second.
    between(place) {
      if (this.freed && place > this.hold + 1e-6) {
        const last = this.loaded[this.loaded.length - 1];
        return [last, this.freed, Math.min((place - this.hold) / this.tail, 1)];
      }
      let i = 0;
      while (i < this.loaded.length - 2 && this.loaded[i + 1].travel <= place) ++i;
      const a = this.loaded[i];
      const b = this.loaded[Math.min(i + 1, this.loaded.length - 1)];
      const span = b.travel - a.travel;
      return [a, b, span > 0 ? Math.min(Math.max((place - a.travel) / span, 0), 1) : 0];
    }

    show() {
      const place = this.place;
      const travel = Math.min(place, this.end);
      const [a, b, part] = this.between(place);
      const free = b.released ? part : 0;
      if (this.inSpace) {
        this.solid.show(a, b, part, travel, free, this.field.value);
        this.legend(this.field.value, this.data.solid);
      } else this.draw(a, b, part, travel, free);
      this.tell(travel, free);
      this.point(travel, free);
    }

    tell(travel, free) {
      const { record, first } = this.data;
      const set = (name, text) => { this.root.querySelector(name).textContent = text; };
      const force = free > 0 ? 0 : valueAt(record, "force", travel);
      const strain = valueAt(record, "strain", travel);
      const left = valueAt(record, "left_angle", travel);
      const right = valueAt(record, "right_angle", travel);
      const angle = (value) => (free > 0 || !Number.isFinite(value) ? "" : value.toFixed(1) + "\u00b0");
      const way = inBoth(lengths, first, travel) + (free > 0 ? ", tools taken away" : "");
      const push = Number.isFinite(force) ? inBoth(forces, first, force) : "not known";
      set(".now-travel", way);
      set(".now-force", push);
      set(".now-strain", free > 0 || !Number.isFinite(strain) ? "see the table" :
        (100 * (Math.exp(strain) - 1)).toFixed(1) + " % (log " + strain.toFixed(3) + ")");
      set(".now-angle", free > 0 ? "sprung free, see the table" :
        Math.abs(left - right) < 0.05 ? angle(left) + " each" :
        angle(left) + " left, " + angle(right) + " right");
      const contacts = this.contacts(travel, free);
      set(".now-contact", contacts);
      this.slider.setAttribute("aria-valuetext",
        way + ", " + push + (this.data.events.length > 0 ? ", " + contacts : ""));
    }

    point(travel, free) {
      const dot = this.chart && this.chart.querySelector(".now");
      if (!dot) return;
      const at = this.chart.dataset;
      const us = this.data.first === "us";
      const x = us ? travel / mmPerInch : travel;
      const newtons = free > 0 ? 0 : valueAt(this.data.record, "force", travel);
      const y = us ? newtons / newtonsPerKip : newtons / 1000;
      const lay = (value, low, high, from, to) =>
        Number(from) + ((value - low) / (high - low)) * (to - from);
      dot.setAttribute("visibility", "visible");
      dot.setAttribute("cx", lay(x, at.xLow, at.xHigh, at.left, at.right).toFixed(2));
      dot.setAttribute("cy", lay(y, at.yLow, at.yHigh, at.bottom, at.top).toFixed(2));
    }

    draw(a, b, part, travel, free) {
      // The view is as high as one shape needs, and goes down with the coupon.
      const [x0, bottom, x1, top] = this.data.window;
      const y1 = a.low + part * (b.low - a.low) + this.data.height;
      const wide = this.canvas.clientWidth || 700;
      const dense = Math.max(window.devicePixelRatio || 1, 1.5);
      const width = Math.round(wide * dense);
      const height = Math.round((width * this.data.height) / (x1 - x0));
      if (this.canvas.width !== width || this.canvas.height !== height) {
        this.canvas.width = width;
        this.canvas.height = height;
      }
      const paper = this.canvas.getContext("2d");
      const scale = width / (x1 - x0);
      paper.fillStyle = "#ffffff";
      paper.fillRect(0, 0, width, height);

      const sides = this.data.mirrored ? [1, -1] : [1];
      paper.globalAlpha = 1 - free; // a released coupon is taken out of its tools
      for (const tool of this.data.tools)
        for (const side of sides) {
          const down = tool.plunger ? travel : 0;
          paper.beginPath();
          for (let i = 0; i < tool.outline.length; i += 2)
            paper.lineTo((side * tool.outline[i] - x0) * scale, (y1 - tool.outline[i + 1] + down) * scale);
          paper.closePath();
          paper.fillStyle = "#cfd3d8";
          paper.strokeStyle = "#6b727c";
          paper.lineWidth = dense;
          paper.fill();
          if (!(tool.plunger && this.data.mirrored)) paper.stroke();
          else this.rim(paper, tool.outline, side, scale, x0, y1 + down);
        }
      paper.globalAlpha = 1;

      const count = a.points.length / 2;
      const px = new Float32Array(count);
      const py = new Float32Array(count);
      for (let i = 0; i < count; ++i) {
        px[i] = ((a.points[2 * i] + part * (b.points[2 * i] - a.points[2 * i])) / 65535) * width;
        const share = (a.points[2 * i + 1] + part * (b.points[2 * i + 1] - a.points[2 * i + 1])) / 65535;
        py[i] = (y1 - bottom - share * (top - bottom)) * scale;
      }
      const field = this.field.value;
      const value = (i) => a[field][i] + part * (b[field][i] - a[field][i]);
      const mirror = 2 * (0 - x0) * scale; // x becomes mirror - x
      for (const side of sides) {
        const at = (i) => (side > 0 ? px[i] : mirror - px[i]);
        this.fillCells(paper, at, py, value, this.colours[field]);
        this.drawEdges(paper, at, py, dense);
      }
      this.legend(field, this.data);
    }

    // Both halves of a mirrored plunger overlap: lines on the middle would cross it.
    rim(paper, outline, side, scale, x0, top) {
      paper.beginPath();
      for (let i = 0; i < outline.length; i += 2) {
        const j = (i + 2) % outline.length;
        if (Math.abs(outline[i]) < 1e-3 && Math.abs(outline[j]) < 1e-3) continue;
        paper.moveTo((side * outline[i] - x0) * scale, (top - outline[i + 1]) * scale);
        paper.lineTo((side * outline[j] - x0) * scale, (top - outline[j + 1]) * scale);
      }
      paper.stroke();
    }

    // Each cell as a few even patches, so that colours run smoothly without shading.
    fillCells(paper, at, py, value, colours) {
      const pieces = this.cells.length > 12000 ? 1 : 2;
      paper.lineWidth = 0.8;
      for (let c = 0; c < this.cells.length; c += 4) {
        const [p, q, r, s] = this.cells.subarray(c, c + 4);
        const lay = (f, u, v) =>
          (1 - u) * (1 - v) * f(p) + u * (1 - v) * f(q) + u * v * f(r) + (1 - u) * v * f(s);
        const y = (i) => py[i];
        for (let i = 0; i < pieces; ++i)
          for (let j = 0; j < pieces; ++j) {
            const u0 = i / pieces, u1 = (i + 1) / pieces, v0 = j / pieces, v1 = (j + 1) / pieces;
            const shade = lay(value, (u0 + u1) / 2, (v0 + v1) / 2);
            paper.fillStyle = paper.strokeStyle = colours[Math.min(Math.max(Math.round(shade), 0), 255)];
            paper.beginPath();
            paper.moveTo(lay(at, u0, v0), lay(y, u0, v0));
            paper.lineTo(lay(at, u1, v0), lay(y, u1, v0));
            paper.lineTo(lay(at, u1, v1), lay(y, u1, v1));
            paper.lineTo(lay(at, u0, v1), lay(y, u0, v1));
            paper.closePath();
            paper.fill();
            paper.stroke(); // closes the hairlines between patches
          }
      }
    }

    // The outline, and the borders of weld and HAZ.
    drawEdges(paper, at, py, dense) {
      paper.strokeStyle = "#1a2028";
      paper.lineWidth = 1.1 * dense;
      paper.beginPath();
      for (let e = 0; e < this.edges.length; e += 2) {
        const i = this.edges[e];
        const j = this.edges[e + 1];
        paper.moveTo(at(i), py[i]);
        paper.lineTo(at(j), py[j]);
      }
      paper.stroke();
    }

    legend(field, maps) {
      const map = maps[field + "_map"];
      if (this.shown === map) return;
      this.shown = map;
      const ramp = this.root.querySelector(".ramp");
      const paper = ramp.getContext("2d");
      this.colours[field].forEach((colour, i) => {
        paper.fillStyle = colour;
        paper.fillRect(i, 0, 1, 1);
      });
      const text = (value) => (value > 0 ? "+" : value < 0 ? "\u2212" : "") + Math.abs(value).toPrecision(2);
      this.root.querySelector(".legend-low").textContent =
        field === "axial" ? "squeezed " + text(map.low) : "0";
      this.root.querySelector(".legend-high").textContent =
        field === "axial" ? text(map.high) + " stretched" : text(map.high);
    }
  }

  for (const root of document.querySelectorAll("[data-viewer]")) {
    const data = JSON.parse(document.getElementById("data-" + root.dataset.viewer).textContent);
    const viewer = new Viewer(root, data);
    Viewer.current = Viewer.current || viewer;
    const asked = /travel=([0-9.]+)/.exec(location.hash);
    if (asked) viewer.go(Number(asked[1]));
  }

  document.addEventListener("keydown", (event) => {
    const viewer = Viewer.current;
    const at = event.target;
    if (!viewer || event.ctrlKey || event.altKey || event.metaKey) return;
    if (at.closest && at.closest("select, summary, a, pre")) return;
    const onSlider = at === viewer.slider;
    const onButton = at.closest && at.closest("button");
    if (event.key === " " && !onButton) viewer.toggle();
    else if (event.key === "ArrowRight" && !onSlider) viewer.step(1);
    else if (event.key === "ArrowLeft" && !onSlider) viewer.step(-1);
    else if (event.key === "Home" && !onSlider) viewer.step(-1e9);
    else if (event.key === "End" && !onSlider) viewer.step(1e9);
    else return;
    event.preventDefault();
  });
})();
