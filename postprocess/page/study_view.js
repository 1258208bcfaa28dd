// Draws one pass of a study: the coupon between the tools on a canvas, the force curve as
// SVG, finding and figures in words. Used by the page of a study and by the class page.
"use strict";
const throughbendStudy = (() => {
  const mmPerInch = 25.4;
  const newtonsPerKip = 4448.2216152605;
  const svgSpace = "http://www.w3.org/2000/svg";

  const wordsOf = (text) => {
    const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
    const words = new Uint16Array(bytes.length / 2);
    for (let i = 0; i < words.length; ++i) words[i] = bytes[2 * i] | (bytes[2 * i + 1] << 8);
    return words;
  };
  const threeDigits = (value) => {
    const size = Math.abs(value);
    if (size < 0.0005) return "0";
    return value.toFixed(size >= 99.95 ? 0 : size >= 9.995 ? 1 : size >= 0.9995 ? 2 : 3);
  };
  const make = (name, attributes, words) => {
    const element = document.createElementNS(svgSpace, name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    if (words !== undefined) element.textContent = words;
    return element;
  };
  // Round numbers from 0 to a largest one.
  const roundSteps = (most, wanted) => {
    const rough = most / wanted;
    const power = 10 ** Math.floor(Math.log10(rough));
    const share = rough / power;
    const step = power * (share < 1.5 ? 1 : share < 3.5 ? 2 : share < 7.5 ? 5 : 10);
    const values = [];
    for (let k = 0; k * step <= most * (1 + 1e-9); ++k) values.push(k * step);
    return [values, Math.max(0, Math.ceil(-Math.log10(step) - 1e-6))];
  };

  class View {
    constructor(root, data) {
      this.root = root;
      this.data = data;
      this.us = data.first === "us";
      this.way = { unit: this.us ? "in" : "mm", per: this.us ? mmPerInch : 1, digits: this.us ? 3 : 1 };
      this.push = { unit: this.us ? "kip" : "kN", per: this.us ? newtonsPerKip : 1000 };
      this.outlines = data.outlines.map((text) => this.placesOf(text));
      this.passes = data.passes;
      this.byNumber = new Map(data.passes.map((pass, i) => [pass.number, i]));
      this.canvas = root.querySelector("canvas");
      this.slider = root.querySelector(".travel");
      this.button = root.querySelector(".play");
      this.playing = 0;
      this.height = 1;
      for (const pass of this.passes)
        for (const moment of pass.moments) this.height = Math.max(this.height, 1.12 * (moment.high - moment.low));
      const [low, high] = data.view;
      this.left = low - 0.04 * (high - low);
      this.wide = 1.08 * (high - low);
      this.height = Math.max(this.height, 0.42 * this.wide);
      this.slider.addEventListener("input", () => { this.stop(); this.show(); });
      this.button.addEventListener("click", () => this.toggle());
      new ResizeObserver(() => this.show()).observe(this.canvas);
    }

    placesOf(text) {
      const [x, y, wide, high] = this.data.span;
      const words = wordsOf(text);
      const places = new Float32Array(words.length);
      for (let i = 0; i < words.length; i += 2) {
        places[i] = x + (words[i] / 65535) * wide;
        places[i + 1] = y + (words[i + 1] / 65535) * high;
      }
      return places;
    }

    curveOf(pass) {
      if (!pass.points) {
        const words = wordsOf(pass.curve);
        const [way0, way] = this.data.travel;
        const [force0, force] = this.data.force;
        pass.points = [];
        for (let i = 0; i < words.length; i += 2)
          pass.points.push([way0 + (words[i] / 65535) * way, force0 + (words[i + 1] / 65535) * force]);
      }
      return pass.points;
    }

    shapesOf(pass) {
      for (const moment of pass.moments)
        if (typeof moment.coupon === "string") moment.coupon = this.placesOf(moment.coupon);
      return pass.moments;
    }

    // Shows a pass; at its last shape, or where the slider stands.
    choose(index, keepTravel) {
      const before = Number(this.slider.value);
      const last = this.pass ? this.end : 0;
      this.pass = this.passes[index];
      const moments = this.shapesOf(this.pass);
      const curve = this.curveOf(this.pass);
      this.end = Math.max(0.1, ...moments.slice(-1).map((m) => m.travel), ...curve.slice(-1).map((p) => p[0]));
      this.slider.max = (Math.ceil(this.end * 10) / 10).toFixed(1);
      this.slider.value = keepTravel && before < last - 0.05 ? Math.min(before, this.end) : this.slider.max;
      this.tell();
      this.drawCurve();
      this.show();
    }

    get travel() { return Math.min(Number(this.slider.value), this.end); }

    toggle() { if (this.playing) this.stop(); else this.play(); }

    play() {
      if (!this.pass || this.pass.moments.length < 2) return;
      const seconds = 6; // for the whole pass
      let place = this.travel >= this.end - 0.05 ? 0 : this.travel;
      let before = performance.now();
      this.button.textContent = "Stop";
      cancelAnimationFrame(this.playing);
      const frame = (now) => {
        place += ((now - before) / 1000 / seconds) * this.end;
        before = now;
        this.slider.value = Math.min(place, this.end).toFixed(1);
        if (place >= this.end) { this.slider.value = this.slider.max; this.stop(); }
        else this.playing = requestAnimationFrame(frame);
        this.show();
      };
      this.playing = requestAnimationFrame(frame);
    }

    stop() {
      cancelAnimationFrame(this.playing);
      this.playing = 0;
      this.button.textContent = "Play";
    }

    forceAt(travel) {
      const curve = this.curveOf(this.pass);
      if (curve.length === 0) return NaN;
      let i = 0;
      while (i < curve.length - 1 && curve[i + 1][0] < travel) ++i;
      const [x0, y0] = curve[i];
      const [x1, y1] = curve[Math.min(i + 1, curve.length - 1)];
      return x1 > x0 ? y0 + Math.min(Math.max((travel - x0) / (x1 - x0), 0), 1) * (y1 - y0) : y0;
    }

    wayText(mm) { return (mm / this.way.per).toFixed(this.way.digits) + " " + this.way.unit; }
    forceText(n) { return Number.isFinite(n) ? threeDigits(n / this.push.per) + " " + this.push.unit : "not known"; }

    tell() {
      const set = (name, words) => {
        const at = this.root.querySelector(name);
        if (at) at.textContent = words;
      };
      const badge = this.root.querySelector(".told-letter");
      badge.textContent = this.pass.letter;
      badge.style.background = this.pass.ground;
      badge.style.color = this.pass.ink;
      set(".told-finding", this.pass.finding);
      set(".told-values", this.pass.values);
      set(".told-verdict", this.pass.verdict);
      set(".told-evidence", this.pass.evidence);
      const list = this.root.querySelector(".told-figures");
      list.replaceChildren(...this.pass.figures.map(([name, value]) => {
        const row = document.createElement("div");
        row.append(document.createElement("dt"), document.createElement("dd"));
        row.firstChild.textContent = name;
        row.lastChild.textContent = value;
        return row;
      }));
    }

    show() {
      if (!this.pass) return;
      const travel = this.travel;
      const words = "travel " + this.wayText(travel) + ", ram " + this.forceText(this.forceAt(travel));
      this.root.querySelector(".now").textContent = words;
      this.slider.setAttribute("aria-valuetext", words);
      this.drawShape(travel);
      this.movePoint(travel);
    }

    // The two moments around a travel and the share of the second.
    between(travel) {
      const all = this.pass.moments;
      if (all.length === 0) return null;
      let i = 0;
      while (i < all.length - 2 && all[i + 1].travel <= travel) ++i;
      const a = all[i];
      const b = all[Math.min(i + 1, all.length - 1)];
      return [a, b, b.travel > a.travel ? Math.min(Math.max((travel - a.travel) / (b.travel - a.travel), 0), 1) : 0];
    }

    blend(a, b, part) {
      if (a.length !== b.length) return part < 1 ? a : b;
      return a.map((value, i) => value + part * (b[i] - value));
    }

    drawShape(travel) {
      const dense = Math.max(window.devicePixelRatio || 1, 1.5);
      const width = Math.round((this.canvas.clientWidth || 500) * dense);
      const height = Math.round((width * this.height) / this.wide);
      if (this.canvas.width !== width || this.canvas.height !== height) {
        this.canvas.width = width;
        this.canvas.height = height;
      }
      const paper = this.canvas.getContext("2d");
      paper.fillStyle = "#ffffff";
      paper.fillRect(0, 0, width, height);
      const found = this.between(travel);
      if (!found) {
        paper.fillStyle = "#1a2028";
        paper.font = 15 * dense + "px sans-serif";
        paper.fillText("No shape is kept of this pass.", 12 * dense, 30 * dense);
        return;
      }
      const [a, b, part] = found;
      const scale = width / this.wide;
      // The view goes down with the coupon.
      const low = Math.min(a.low + part * (b.low - a.low) - 0.06 * this.height, -0.5 * this.height);
      const draw = (places, dx, dy, fill, line, thick) => {
        paper.beginPath();
        for (let i = 0; i < places.length; i += 2)
          paper.lineTo((places[i] + dx - this.left) * scale, height - (places[i + 1] + dy - low) * scale);
        paper.closePath();
        paper.fillStyle = fill;
        paper.strokeStyle = line;
        paper.lineWidth = thick * dense;
        paper.fill();
        paper.stroke();
      };
      const tools = new Map(this.pass.moments[0].tools.map((tool) => [tool[0], [tool, tool]]));
      for (const tool of a.tools) tools.set(tool[0], [tool, tool]);
      for (const tool of b.tools) tools.set(tool[0], [tools.has(tool[0]) ? tools.get(tool[0])[0] : tool, tool]);
      for (const [from, to] of tools.values())
        if (from[1] === to[1])
          draw(this.outlines[from[1]], from[2] + part * (to[2] - from[2]), from[3] + part * (to[3] - from[3]),
            "#cfd3d8", "#6b727c", 1);
        else
          draw(this.blend(this.outlines[from[1]], this.outlines[to[1]], part), 0, 0, "#cfd3d8", "#6b727c", 1);
      draw(this.blend(a.coupon, b.coupon, part), 0, 0, "#8fb8dc", "#1a2028", 1.3);
    }

    // Axes are the same for every pass, so that curves can be compared by eye.
    drawCurve() {
      const svg = this.root.querySelector(".curve");
      const mostWay = (this.data.travel[0] + this.data.travel[1]) / this.way.per || 1;
      const mostForce = (this.data.force[0] + this.data.force[1]) / this.push.per || 1;
      const capacity = this.data.capacity === null ? NaN : this.data.capacity / this.push.per;
      const top = mostForce * 1.08;
      const box = { left: 62, right: 488, top: 12, bottom: 218 };
      this.px = (x) => box.left + (x / (mostWay * 1.02)) * (box.right - box.left);
      this.py = (y) => box.bottom - (Math.max(y, 0) / top) * (box.bottom - box.top);
      const parts = [make("title", {}, "Ram force along the travel, " + this.pass.values)];
      const [xs, xDigits] = roundSteps(mostWay, 6);
      for (const x of xs)
        parts.push(make("line", { x1: this.px(x), x2: this.px(x), y1: box.top, y2: box.bottom, stroke: "#dfe3e8" }),
          make("text", { x: this.px(x), y: box.bottom + 20, "text-anchor": "middle" }, x.toFixed(xDigits)));
      const [ys, yDigits] = roundSteps(top, 4);
      for (const y of ys)
        parts.push(make("line", { x1: box.left, x2: box.right, y1: this.py(y), y2: this.py(y), stroke: "#dfe3e8" }),
          make("text", { x: box.left - 7, y: this.py(y) + 6, "text-anchor": "end" }, y.toFixed(yDigits)));
      parts.push(make("text", { x: (box.left + box.right) / 2, y: box.bottom + 42, "text-anchor": "middle" },
        "travel [" + this.way.unit + "]"));
      const middle = (box.top + box.bottom) / 2;
      parts.push(make("text", { x: 16, y: middle, "text-anchor": "middle", transform: `rotate(-90 16 ${middle})` },
        "ram force [" + this.push.unit + "]"));
      const line = (points, look) => make("path", { fill: "none", ...look,
        d: points.map(([x, y], i) => (i ? "L" : "M") + this.px(x / this.way.per).toFixed(1) + " " +
          this.py(y / this.push.per).toFixed(1)).join("") || "M0 0" });
      if (this.beside && this.beside !== this.pass)
        parts.push(line(this.curveOf(this.beside), { stroke: "#8a9099", "stroke-width": 2, "stroke-dasharray": "5 4" }));
      parts.push(line(this.curveOf(this.pass), { stroke: "#005a94", "stroke-width": 2.6 }));
      if (capacity <= top)
        parts.push(make("line", { x1: box.left, x2: box.right, y1: this.py(capacity), y2: this.py(capacity),
          stroke: "#a3220f", "stroke-width": 1.8, "stroke-dasharray": "8 4" }));
      if (Number.isFinite(capacity))
        parts.push(make("text", { x: box.right - 6, y: capacity > top ? box.top + 18 : this.py(capacity) + (this.py(capacity) < box.top + 22 ? 18 : -6),
          "text-anchor": "end", fill: "#a3220f", stroke: "#ffffff", "stroke-width": 3, "paint-order": "stroke" },
          capacity <= top ? "the ram's capacity" : "\u2191 the ram's capacity, " + this.forceText(this.data.capacity)));
      parts.push(make("rect", { x: box.left, y: box.top, width: box.right - box.left, height: box.bottom - box.top,
        fill: "none", stroke: "#6b727c" }));
      this.dot = make("circle", { r: 7, fill: "#d55e00", stroke: "#ffffff", "stroke-width": 2, class: "dot" });
      parts.push(this.dot);
      svg.replaceChildren(...parts);
    }

    movePoint(travel) {
      if (!this.dot) return;
      const force = this.forceAt(travel);
      this.dot.setAttribute("visibility", Number.isFinite(force) ? "visible" : "hidden");
      if (!Number.isFinite(force)) return;
      this.dot.setAttribute("cx", this.px(travel / this.way.per).toFixed(1));
      this.dot.setAttribute("cy", this.py(force / this.push.per).toFixed(1));
    }
  }

  const dataIn = (id) => {
    const at = document.getElementById(id);
    return at ? JSON.parse(at.textContent) : null;
  };
  return { View, dataIn, make };
})();
