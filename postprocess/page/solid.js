// Draws a coupon of real width in space, with three.js: its surface coloured by strain, the
// edges of its cells, and the tools, which can be seen through.
"use strict";
const throughbendSolid = (() => {
  const bytesOf = (text) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  const wordsOf = (text) => {
    const bytes = bytesOf(text);
    const words = new Uint16Array(bytes.length / 2);
    for (let i = 0; i < words.length; ++i) words[i] = bytes[2 * i] | (bytes[2 * i + 1] << 8);
    return words;
  };

  // Points move evenly from one moment to the next.
  const vertexText = `
    attribute vec3 next;
    attribute float strain;
    attribute float nextStrain;
    uniform float part;
    varying float vStrain;
    varying vec3 vPlace;
    void main() {
      vec4 place = modelViewMatrix * vec4(mix(position, next, part), 1.0);
      vStrain = mix(strain, nextStrain, part);
      vPlace = place.xyz;
      gl_Position = projectionMatrix * place;
    }`;
  // Strain is interpolated, not colour. A face at an angle to the view is drawn darker.
  const faceText = `
    uniform sampler2D ramp;
    varying float vStrain;
    varying vec3 vPlace;
    void main() {
      vec3 across = normalize(cross(dFdx(vPlace), dFdy(vPlace)));
      float light = 0.8 + 0.2 * abs(dot(across, normalize(vPlace)));
      gl_FragColor = vec4(texture2D(ramp, vec2((255.0 * vStrain + 0.5) / 256.0, 0.5)).rgb * light, 1.0);
    }`;
  const lineText = "void main() { gl_FragColor = vec4(0.1, 0.125, 0.157, 1.0); }";

  class Solid {
    // Throws where the browser has no WebGL. `lost` is called when it takes it away.
    constructor(root, data, colours, lost) {
      this.root = root;
      this.data = data;
      this.canvas = root.querySelector(".space");
      this.renderer = new three.WebGLRenderer({ canvas: this.canvas, antialias: true, preserveDrawingBuffer: true });
      this.renderer.setClearColor(0xffffff, 1);
      this.canvas.addEventListener("webglcontextlost", lost);
      this.camera = new three.PerspectiveCamera(18, 1, 1, 1e5);
      this.scene = new three.Scene();
      this.ramps = {};
      for (const [field, list] of Object.entries(colours)) this.ramps[field] = this.rampOf(list);
      this.part = { value: 0 };
      this.ramp = { value: this.ramps.axial };
      this.addCoupon();
      this.addTools();
      this.zoom = 1;
      this.turn(35, 22);
      this.listen();
      this.draw = () => {};
    }

    rampOf(list) {
      const bytes = new Uint8Array(4 * list.length);
      list.forEach((colour, i) => {
        const [r, g, b] = colour.match(/\d+/g).map(Number);
        bytes.set([r, g, b, 255], 4 * i);
      });
      const texture = new three.DataTexture(bytes, list.length, 1);
      texture.magFilter = texture.minFilter = three.LinearFilter;
      texture.needsUpdate = true;
      return texture;
    }

    // One geometry, shown once for each part that symmetry mirrors.
    addCoupon() {
      const faces = wordsOf(this.data.faces);
      const corners = new Uint16Array((faces.length / 4) * 6);
      for (let f = 0, k = 0; f < faces.length; f += 4)
        for (const i of [0, 1, 2, 0, 2, 3]) corners[k++] = faces[f + i];
      this.surface = new three.BufferGeometry();
      this.surface.setIndex(new three.BufferAttribute(corners, 1));
      this.lines = new three.BufferGeometry();
      this.lines.setIndex(new three.BufferAttribute(wordsOf(this.data.edges), 1));
      const paint = new three.ShaderMaterial({
        uniforms: { part: this.part, ramp: this.ramp }, vertexShader: vertexText, fragmentShader: faceText,
        side: three.DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1,
      });
      const pen = new three.ShaderMaterial({
        uniforms: { part: this.part }, vertexShader: vertexText, fragmentShader: lineText,
      });
      for (const x of this.sides())
        for (const z of [1, -1])
          for (const piece of [new three.Mesh(this.surface, paint), new three.LineSegments(this.lines, pen)]) {
            piece.scale.set(x, 1, z);
            piece.frustumCulled = false; // the shader moves its points
            this.scene.add(piece);
          }
    }

    sides() { return this.data.mirrored ? [1, -1] : [1]; }

    addTools() {
      this.tools = new three.Group();
      this.plungers = [];
      this.glass = new three.MeshBasicMaterial({
        color: 0x9aa2ac, transparent: true, opacity: 0.22, depthWrite: false, side: three.DoubleSide,
      });
      this.rim = new three.LineBasicMaterial({ color: 0x59616b, transparent: true, opacity: 0.75 });
      for (const tool of this.data.tools) {
        const [walls, edges] = this.bodyOf(tool);
        for (const x of this.sides()) {
          const body = new three.Group();
          body.scale.set(x, 1, 1);
          const glass = new three.Mesh(walls, this.glass);
          glass.renderOrder = 1;
          const rim = new three.LineSegments(edges, this.rim);
          rim.renderOrder = 2;
          body.add(glass, rim);
          this.tools.add(body);
          if (tool.plunger) this.plungers.push(body);
        }
      }
      this.scene.add(this.tools);
    }

    // A prism over the outline; what lies in the plane of symmetry is no wall.
    bodyOf(tool) {
      const outline = [];
      for (let i = 0; i < tool.outline.length; i += 2)
        outline.push(new three.Vector2(tool.outline[i], tool.outline[i + 1]));
      const wide = tool.half_width;
      const count = outline.length;
      const places = [];
      for (const z of [wide, -wide]) for (const p of outline) places.push(p.x, p.y, z);
      const walls = [];
      const edges = [];
      for (const triangle of three.ShapeUtils.triangulateShape(outline, []))
        for (const end of [0, count]) walls.push(...triangle.map((i) => i + end));
      for (let i = 0; i < count; ++i) {
        const j = (i + 1) % count;
        if (this.data.mirrored && Math.abs(outline[i].x) < 1e-3 && Math.abs(outline[j].x) < 1e-3) continue;
        walls.push(i, j, count + j, i, count + j, count + i);
        edges.push(i, j, count + i, count + j);
        const before = outline[(i + count - 1) % count];
        const turn = outline[i].clone().sub(before).angleTo(outline[j].clone().sub(outline[i]));
        if (turn > 0.3 && turn < 2 * Math.PI - 0.3) edges.push(i, count + i); // a corner, not an arc
      }
      return [walls, edges].map((corners) => {
        const geometry = new three.BufferGeometry();
        geometry.setAttribute("position", new three.Float32BufferAttribute(places, 3));
        geometry.setIndex(corners);
        return geometry;
      });
    }

    // What the card needs of a moment, made when it is first shown.
    ready(moment) {
      if (moment.ready) return moment.ready;
      const words = wordsOf(moment.solid);
      const places = new Float32Array(words.length);
      const { low, high } = this.data;
      let down = Infinity, up = -Infinity;
      for (let i = 0; i < words.length; ++i) {
        const d = i % 3;
        places[i] = low[d] + (words[i] / 65535) * (high[d] - low[d]);
        if (d === 1) { down = Math.min(down, places[i]); up = Math.max(up, places[i]); }
      }
      const strain = (text) => new three.BufferAttribute(bytesOf(text), 1, true);
      moment.ready = {
        middle: (down + up) / 2,
        place: new three.BufferAttribute(places, 3),
        axial: strain(moment.solid_axial),
        plastic: strain(moment.solid_plastic),
      };
      return moment.ready;
    }

    show(a, b, part, travel, free, field) {
      this.draw = () => {
        const from = this.ready(a);
        const to = this.ready(b);
        for (const geometry of [this.surface, this.lines]) {
          geometry.setAttribute("position", from.place);
          geometry.setAttribute("next", to.place);
          geometry.setAttribute("strain", from[field]);
          geometry.setAttribute("nextStrain", to[field]);
        }
        this.part.value = part;
        this.ramp.value = this.ramps[field];
        for (const body of this.plungers) body.position.y = -travel;
        this.tools.visible = free < 1; // a released coupon is taken out of its tools
        this.glass.opacity = 0.22 * (1 - free);
        this.rim.opacity = 0.75 * (1 - free);
        this.aim(from.middle + part * (to.middle - from.middle));
        this.renderer.render(this.scene, this.camera);
      };
      this.draw();
    }

    // The view goes down with the coupon. Its scale is the same at every travel.
    aim(height) {
      const wide = this.canvas.clientWidth || 600;
      const tall = Math.round(wide * (wide < 500 ? 0.85 : 0.7));
      const dense = Math.max(window.devicePixelRatio || 1, 1.5);
      if (this.canvas.width !== Math.round(wide * dense) || this.canvas.height !== Math.round(tall * dense)) {
        this.renderer.setPixelRatio(dense);
        this.renderer.setSize(wide, tall, false);
        this.camera.aspect = wide / tall;
      }
      const { low, high } = this.data;
      const reach = Math.max(high[0], -low[0]);
      const half = Math.tan((this.camera.fov / 2) * (Math.PI / 180)) * Math.min(this.camera.aspect, 1.4);
      const away = (1.12 * reach) / half / this.zoom + high[2];
      const yaw = (this.yaw * Math.PI) / 180;
      const pitch = (this.pitch * Math.PI) / 180;
      const middle = this.data.mirrored ? 0 : (low[0] + high[0]) / 2;
      this.camera.near = Math.max(away - 6 * reach, away / 100);
      this.camera.far = away + 6 * reach;
      this.camera.position.set(middle + away * Math.cos(pitch) * Math.sin(yaw), height + away * Math.sin(pitch),
        away * Math.cos(pitch) * Math.cos(yaw));
      this.camera.lookAt(middle, height, 0);
      this.camera.updateProjectionMatrix();
    }

    turn(yaw, pitch) {
      this.yaw = ((yaw + 540) % 360) - 180;
      this.pitch = Math.min(Math.max(pitch, -89), 89);
    }

    by(yaw, pitch, zoom = 1) {
      this.turn(this.yaw + yaw, this.pitch + pitch);
      this.zoom = Math.min(Math.max(this.zoom * zoom, 0.5), 8);
      this.draw();
    }

    listen() {
      const { canvas, root } = this;
      const fingers = new Map();
      canvas.addEventListener("pointerdown", (event) => {
        fingers.set(event.pointerId, event);
        canvas.setPointerCapture(event.pointerId);
        canvas.focus({ preventScroll: true });
      });
      canvas.addEventListener("pointermove", (event) => {
        const before = fingers.get(event.pointerId);
        if (!before) return;
        if (fingers.size === 1)
          this.by((before.clientX - event.clientX) * 0.5, (event.clientY - before.clientY) * 0.5);
        else if (fingers.size === 2) { // two fingers zoom
          const other = [...fingers.values()].find((finger) => finger.pointerId !== event.pointerId);
          const apart = (finger) => Math.hypot(finger.clientX - other.clientX, finger.clientY - other.clientY);
          if (apart(before) > 0) this.by(0, 0, apart(event) / apart(before));
        }
        fingers.set(event.pointerId, event);
      });
      for (const name of ["pointerup", "pointercancel"])
        canvas.addEventListener(name, (event) => fingers.delete(event.pointerId));
      // Only a view that was clicked on takes the wheel, so that the page can be scrolled past it.
      canvas.addEventListener("wheel", (event) => {
        if (document.activeElement !== canvas) return;
        event.preventDefault();
        this.by(0, 0, Math.exp(-event.deltaY / 600));
      }, { passive: false });
      const keys = {
        ArrowLeft: [5, 0], ArrowRight: [-5, 0], ArrowUp: [0, 5], ArrowDown: [0, -5],
        "+": [0, 0, 1.15], "=": [0, 0, 1.15], "-": [0, 0, 1 / 1.15],
      };
      canvas.addEventListener("keydown", (event) => {
        const move = keys[event.key];
        if (!move || event.ctrlKey || event.altKey || event.metaKey) return;
        this.by(...move);
        event.preventDefault();
        event.stopPropagation(); // arrows move the travel elsewhere on the page
      });
      const side = root.querySelector(".side");
      side.addEventListener("change", () => {
        this.turn(...side.value.split(",").map(Number));
        this.zoom = 1;
        this.draw();
      });
      root.querySelector(".nearer").addEventListener("click", () => this.by(0, 0, 1.25));
      root.querySelector(".farther").addEventListener("click", () => this.by(0, 0, 0.8));
      new ResizeObserver(() => this.draw()).observe(canvas);
    }
  }
  return Solid;
})();
