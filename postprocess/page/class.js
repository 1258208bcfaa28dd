// The class page: sliders over the keys of a computed grid. What is shown is always one
// computed pass, the nearest to the sliders; nothing is interpolated between passes.
"use strict";
(() => {
  const data = throughbendStudy.dataIn("study-data");
  const root = document.querySelector(".pass-view");
  if (!data || !root || data.passes.length === 0) return;
  const view = new throughbendStudy.View(root, data);
  const sliders = [...document.querySelectorAll(".key-slider input")];
  const spans = data.keys.map((_, k) => {
    const values = [...data.passes.map((pass) => pass.at[k]), ...data.keys[k].levels];
    return [Math.min(...values), Math.max(...values)];
  });
  const levels = data.keys.map((key) => key.levels);
  const text = (value) => String(Number(value.toPrecision(4)));
  const named = (k, value) => text(value) + (data.keys[k].unit ? " " + data.keys[k].unit : "");

  // By the share of each key's range, the first of equals.
  const nearest = (asked) => {
    let best = 0, least = Infinity;
    data.passes.forEach((pass, i) => {
      let sum = 0;
      pass.at.forEach((value, k) => {
        const size = spans[k][1] - spans[k][0];
        sum += size > 0 ? ((value - asked[k]) / size) ** 2 : 0;
      });
      if (sum < least - 1e-12) { least = sum; best = i; }
    });
    return best;
  };

  const show = () => {
    const asked = sliders.map((slider) => Number(slider.value));
    const index = nearest(asked);
    view.choose(index, true);
    const pass = data.passes[index];
    let away = false;
    sliders.forEach((slider, k) => {
      const size = spans[k][1] - spans[k][0];
      away = away || Math.abs(pass.at[k] - asked[k]) > 1e-3 * Math.max(size, 1e-12);
      slider.closest(".key-slider").querySelector("output").textContent = named(k, asked[k]);
      slider.setAttribute("aria-valuetext", named(k, asked[k]) + ", shown is the pass for " + named(k, pass.at[k]));
    });
    const shown = document.querySelector(".shown-for");
    shown.textContent = (away ? "Nothing is computed for just these values. Shown is the nearest computed pass: "
      : "Shown is the pass computed for ") + pass.values + ".";
    shown.classList.toggle("away", away);
  };

  sliders.forEach((slider, k) => {
    slider.addEventListener("input", () => show());
    // Arrow keys go from one computed value to the next.
    slider.addEventListener("keydown", (event) => {
      const up = event.key === "ArrowRight" || event.key === "ArrowUp";
      if (!up && event.key !== "ArrowLeft" && event.key !== "ArrowDown") return;
      const now = Number(slider.value);
      const slack = 1e-6 * Math.max(spans[k][1] - spans[k][0], 1e-9);
      const next = up ? levels[k].find((level) => level > now + slack)
        : [...levels[k]].reverse().find((level) => level < now - slack);
      if (next !== undefined) { slider.value = next; show(); }
      event.preventDefault();
    });
    const marks = slider.closest(".key-slider").querySelector(".marks");
    const size = spans[k][1] - spans[k][0];
    for (const level of levels[k]) {
      const mark = document.createElement("i");
      mark.style.left = (size > 0 ? (100 * (level - spans[k][0])) / size : 50) + "%";
      marks.append(mark);
    }
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== " " || (event.target.closest && event.target.closest("button, a, select"))) return;
    view.toggle();
    event.preventDefault();
  });
  const own = data.passes.findIndex((pass) => pass.number === data.start);
  view.beside = data.has_own ? data.passes[own] : null;
  const first = data.passes[Math.max(own, 0)];
  sliders.forEach((slider, k) => { slider.value = first.at[k]; });
  show();
  view.slider.value = view.slider.max;
  view.show();
})();
