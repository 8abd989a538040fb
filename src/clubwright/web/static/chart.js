// Draws a table of beliefs (mean and standard uncertainty) as a line in its band; the table stays the text of it.
"use strict";
(() => {
  let chart = null;
  const draw = () => {
    const place = document.getElementById("belief-chart");
    const rows = [...document.querySelectorAll(".belief-table tr[data-mean]")];
    if (!place || place.firstChild || rows.length < 2) return;
    const style = getComputedStyle(document.documentElement);
    const colour = (name) => style.getPropertyValue(name).trim();
    const mean = rows.map((row) => Number(row.dataset.mean));
    const sd = rows.map((row) => Number(row.dataset.sd));
    const count = rows.map((_, place) => place);
    const axis = { stroke: colour("--ink"), grid: { stroke: colour("--line"), width: 1 }, ticks: { stroke: colour("--line") }, font: "16px system-ui, sans-serif" };
    // Points above A0, ten to a letter: written as the trade writes them.
    const written = (points) => `${"ABCDEFG"[Math.floor(points / 10)] ?? ""}${(points % 10).toFixed(1)}`;
    chart = new uPlot({
      width: place.clientWidth,
      height: 260,
      legend: { show: false },
      cursor: { show: false },
      scales: { x: { time: false } },
      axes: [{ ...axis, values: (_, ticks) => ticks.map((tick) => (Number.isInteger(tick) ? String(tick) : "")) }, { ...axis, size: 70, values: (_, ticks) => ticks.map(written) }],
      series: [
        {},
        { stroke: "transparent", points: { show: false } },
        { stroke: "transparent", points: { show: false } },
        { stroke: colour("--belief"), width: 3, points: { show: true, size: 9, fill: colour("--belief") } },
      ],
      bands: [{ series: [1, 2], fill: colour("--band") }],
    }, [count, mean.map((value, place) => value + sd[place]), mean.map((value, place) => value - sd[place]), mean], place);
  };
  document.addEventListener("htmx:after:swap", draw);
  window.addEventListener("resize", () => { // the tablet was turned
    const place = document.getElementById("belief-chart");
    if (chart && place?.contains(chart.root)) chart.setSize({ width: place.clientWidth, height: 260 });
  });
  draw();
})();
