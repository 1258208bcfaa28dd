// The page of a study: hovering over a pass of a map or a limit shows it, arrow keys step
// from pass to pass, click and Enter play it.
"use strict";
(() => {
  const data = throughbendStudy.dataIn("study-data");
  const root = document.querySelector(".pass-view");
  if (!data || !root || data.passes.length === 0) return;
  const view = new throughbendStudy.View(root, data);
  const figures = [...document.querySelectorAll(".pick")];
  let chosen = null;

  const cellsOf = (figure) =>
    [...figure.querySelectorAll("[data-pass]")].filter((cell) => view.byNumber.has(Number(cell.dataset.pass)));
  const middleOf = (cell) => {
    const value = (name) => Number(cell.getAttribute(name));
    return [value("x") + value("width") / 2, value("y") + value("height") / 2];
  };

  // The ring stands on every cell of the chosen pass; a pass may be in several charts.
  const ring = (number) => {
    for (const old of document.querySelectorAll(".ring")) old.remove();
    for (const figure of figures)
      for (const cell of cellsOf(figure)) {
        if (Number(cell.dataset.pass) !== number) continue;
        const size = {};
        for (const name of ["x", "y", "width", "height"]) size[name] = cell.getAttribute(name);
        for (const [colour, width] of [["#ffffff", 7], ["#b8003c", 4]])
          cell.ownerSVGElement.append(throughbendStudy.make("rect",
            { ...size, fill: "none", stroke: colour, "stroke-width": width, class: "ring", "pointer-events": "none" }));
      }
  };

  const show = (number) => {
    ring(number);
    view.choose(view.byNumber.get(number), false);
  };
  const choose = (number) => {
    view.stop();
    chosen = number;
    show(number);
    document.querySelector(".told-aloud").textContent = view.pass.values + ": " + view.pass.finding;
  };

  // The nearest pass in a direction of the drawing: what lies aside counts double.
  const step = (figure, dx, dy) => {
    const cells = cellsOf(figure);
    const at = cells.find((cell) => Number(cell.dataset.pass) === chosen);
    if (!at) return cells.length > 0 ? choose(Number(cells[0].dataset.pass)) : undefined;
    const [x, y] = middleOf(at);
    let best = null, least = Infinity;
    for (const cell of cells) {
      const [cx, cy] = middleOf(cell);
      const ahead = (cx - x) * dx + (cy - y) * dy;
      const aside = Math.abs((cx - x) * dy) + Math.abs((cy - y) * dx);
      if (ahead < 0.5 || ahead + 2 * aside >= least) continue;
      least = ahead + 2 * aside;
      best = cell;
    }
    if (best) choose(Number(best.dataset.pass));
  };

  for (const figure of figures) {
    figure.addEventListener("pointerover", (event) => {
      const cell = event.target.closest("[data-pass]");
      if (cell && event.pointerType === "mouse" && !view.playing && view.byNumber.has(Number(cell.dataset.pass)))
        show(Number(cell.dataset.pass));
    });
    figure.addEventListener("pointerleave", () => {
      if (!view.playing && chosen !== null && view.pass.number !== chosen) show(chosen);
    });
    figure.addEventListener("click", (event) => {
      const cell = event.target.closest("[data-pass]");
      if (!cell || !view.byNumber.has(Number(cell.dataset.pass))) return;
      choose(Number(cell.dataset.pass));
      view.slider.value = 0;
      view.play();
    });
    figure.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.altKey || event.metaKey) return;
      const way = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
      if (way) step(figure, ...way);
      else if (event.key === "Enter") { view.stop(); view.slider.value = 0; view.play(); }
      else if (event.key === " ") view.toggle();
      else if (event.key === "Escape") view.stop();
      else return;
      event.preventDefault();
    });
  }
  choose(data.start);
})();
