// Turns the options of a chart as a page carries them into those the chart
// library takes: in the reader's units, colours and room.

const chartNarrow = 560; // px below which a chart is for a phone

// chartConvert turns the numbers of a series into what the reader reads.
function chartConvert(series, x, y) {
  const second = series.xAxisIndex === 1; // the bars of the statuses
  const turn = series.name === "width" ? y.difference : y.convert;
  for (const item of series.data) {
    item.value = [x.convert(item.value[0]), second ? item.value[1] : turn(item.value[1])];
  }
  for (const line of series.markLine?.data ?? []) line.yAxis = y.convert(line.yAxis);
}

// chartExtent returns the least and the greatest of a coordinate of the series
// on the first axes; what is stacked is added up.
function chartExtent(option, at) {
  let low = Infinity, high = -Infinity;
  const main = option.series.filter(s => !s.xAxisIndex);
  const base = main.find(s => s.name === "low");
  for (const s of main) {
    s.data.forEach((item, i) => {
      const v = item.value[at] + (at === 1 && s.name === "width" ? base.data[i].value[1] : 0);
      [low, high] = [Math.min(low, v), Math.max(high, v)];
    });
  }
  return [low, high];
}

// chartPaint replaces names of custom properties by their colours.
function chartPaint(node, colour) {
  for (const [name, value] of Object.entries(node)) {
    if (typeof value === "string" && value.startsWith("--")) node[name] = colour(value);
    else if (value && typeof value === "object") chartPaint(value, colour);
  }
}

// chartAxis gives an axis its common looks.
function chartAxis(axis, look) {
  const line = { lineStyle: { color: look.colour("--line") } };
  Object.assign(axis, { axisLine: { show: true, onZero: false, ...line }, axisTick: { show: true, ...line }, splitLine: { show: true, ...line } });
  axis.axisLabel = { color: look.colour("--quiet"), fontSize: look.size, fontFamily: look.font, margin: 6 };
}

// chartDayAxis puts the months on an axis of days from left to right: ticks
// where they begin, their names between, letters where there is little room.
function chartDayAxis(axis, spec, look) {
  const months = (axis.max - axis.min) / yearDays * 12;
  const room = look.width / months;
  axis.axisTick.customValues = chartMonthBegins(axis.min, axis.max);
  axis.axisLabel.customValues = chartMonthMiddles(axis.min, axis.max, room < 30 ? 20 : 12);
  axis.axisLabel.formatter = day => {
    const name = spec.months[monthDay(day).month - 1];
    return room < 30 ? [...name][0] : name;
  };
}

// chartRoundAxis lets an axis run over round numbers of the reader's unit.
function chartRoundAxis(axis, [low, high], count, write) {
  const steps = chartRound(low, high, count);
  Object.assign(axis, { min: steps[0], max: steps[steps.length - 1] });
  axis.axisTick.customValues = axis.axisLabel.customValues = steps;
  axis.axisLabel.formatter = write;
}

// chartStatuses lays out the heat map: months above, names at the left.
function chartStatuses(option, spec, look) {
  const [x, y] = [option.xAxis[0], option.yAxis[0]];
  const names = Math.min(Math.max(...y.data.map(n => n.length)) * look.size * 0.56 + 12, look.width * (look.narrow ? 0.36 : 0.22));
  option.grid = { left: names, right: 2, top: 24, bottom: 4 };
  const begins = week => {
    const [from, to] = chartWeek(7 * week - 3);
    return chartMonthBegins(from, to - 1).length > 0;
  };
  x.data = x.data.map(String);
  x.axisTick = x.axisLine = y.axisTick = y.axisLine = x.splitLine = y.splitLine = { show: false };
  Object.assign(x.axisLabel, {
    interval: (i, week) => begins(+week), align: "left",
    formatter: week => {
      const name = spec.months[monthDay(chartWeek(7 * week - 3)[1] - 1).month - 1];
      return look.narrow ? [...name][0] : name;
    },
  });
  Object.assign(y.axisLabel, { interval: 0, width: names - 10, overflow: "truncate", color: look.colour("--ink") });
  const gap = look.narrow ? 0.4 : 1;
  const cell = [(look.width - names - 2) / x.data.length - gap, (look.height - 28) / y.data.length - gap];
  for (const s of option.series) {
    s.symbolSize = cell;
    s.emphasis = { scale: false, itemStyle: { borderColor: look.colour("--ink"), borderWidth: 1.5 } };
  }
  option.tooltip.formatter = p => {
    const [from, to] = chartWeek(7 * x.data[p.value[0]] - 3);
    return `${y.data[p.value[1]]}\n${chartSpan(from, to, spec.months, look.choice.dayFirst)}: ${spec.words[p.seriesIndex]}`;
  };
}

// chartSoil lays out a year of soil with the statuses below it.
function chartSoil(option, spec, look, y) {
  const [main, below] = option.xAxis;
  option.grid = [{ left: look.gutter, right: 10, top: 10, bottom: 56 }, { left: look.gutter, right: 10, height: 20, bottom: 28 }];
  for (const axis of [main, below]) chartDayAxis(axis, spec, look);
  main.axisLabel.show = main.axisTick.show = below.axisLine.show = below.splitLine.show = false;
  chartRoundAxis(option.yAxis[0], chartExtent(option, 1), 6, y.write);
  for (const s of option.series) {
    if (s.stack) s.stackStrategy = "all";
    s.itemStyle = { color: s.lineStyle.color };
    if (s.xAxisIndex) Object.assign(s, { silent: true, lineStyle: { ...s.lineStyle, cap: "butt" } });
    s.emphasis = { disabled: true };
  }
  const line = option.series.find(s => s.markLine).markLine;
  const late = spec.calendar[2] - main.min > yearDays / 2; // the end at which the curve is not
  Object.assign(line, { silent: true, label: {
    position: late ? "insideStartTop" : "insideEndTop", color: look.colour("--chart-level"), fontFamily: look.font, fontSize: look.size, fontWeight: "bold",
    formatter: p => y.exact(p.value),
  } });
  option.tooltip.formatter = points => {
    const at = name => points.find(p => p.seriesName === name).value;
    const [day, typical] = at("curve");
    const low = at("low")[1];
    return [
      `${chartDate(day, spec.months, look.choice.dayFirst)}: ${spec.statuses[chartStatus(spec.calendar, day)]}`,
      `${spec.words[0]}: ${y.write(typical)}`, `${spec.words[1]}: ${y.write(low)} to ${y.write(low + at("width")[1])}`,
    ].join("\n");
  };
}

// chartWorth lays out what the weeks are worth.
function chartWorth(option, spec, look, y) {
  option.grid = { left: look.gutter, right: 10, top: 10, bottom: 28 };
  chartDayAxis(option.xAxis[0], spec, look);
  chartRoundAxis(option.yAxis[0], [0, 100], 5, y.write);
  for (const s of option.series) {
    s.itemStyle = { color: s.lineStyle.color };
    s.emphasis = { disabled: true };
    if (s.markArea) s.markArea.silent = true;
  }
  option.tooltip.formatter = points => {
    const day = points[0].value[0];
    const [from, to] = chartWeek(day);
    const head = `${chartSpan(from, to, spec.months, look.choice.dayFirst)}: ${spec.statuses[chartStatus(spec.calendar, day)]}`;
    return [head, ...points.map(p => `${spec.words[p.seriesIndex]}: ${y.write(p.value[1])}`)].join("\n");
  };
}

// chartRelation lays out days against elevation or latitude.
function chartRelation(option, spec, look, y, x) {
  option.grid = { left: look.gutter + 6, right: 16, top: 10, bottom: 28 };
  const across = option.xAxis[0];
  const [left, right] = chartExtent(option, 0);
  chartRoundAxis(across, [left, right], look.narrow ? 4 : 8, x.write);
  const edge = (right - left) / 50; // the axis ends by the outermost cells, not a step further
  Object.assign(across, { min: Math.max(across.min, left - edge), max: Math.min(across.max, right + edge) });
  across.axisTick.customValues = across.axisLabel.customValues = across.axisTick.customValues.filter(v => v >= across.min && v <= across.max);
  const [low, high] = chartExtent(option, 1);
  const axis = Object.assign(option.yAxis[0], { min: low - 4, max: high + 4 });
  axis.axisTick.customValues = axis.axisLabel.customValues = chartDateTicks(axis.min, axis.max);
  axis.axisLabel.formatter = y.write;
  for (const s of option.series) s.emphasis = { disabled: true };
  option.tooltip.formatter = p => `${spec.words[p.seriesIndex]}\n${x.write(p.value[0])}: ${y.write(p.value[1])}`;
}

// chartOption returns the options of the library from those of a page, as
// text. look is the room and the looks: width and height in px, colour a function from
// the name of a custom property, font, and the reader's choice.
function chartOption(text, look) {
  const option = JSON.parse(text);
  const spec = option.weekband;
  delete option.weekband;
  chartPaint(option, look.colour);
  look = { ...look, narrow: look.width < chartNarrow, size: look.width < chartNarrow ? 11 : 13 };
  look.gutter = look.size * 4;
  const [x, y] = [spec.x, spec.y].map(name => chartQuantity(name, spec, look.choice));
  if (spec.kind !== "statuses") option.series.forEach(s => chartConvert(s, x, y));
  for (const axis of [...option.xAxis, ...option.yAxis]) {
    if (axis.show !== false) chartAxis(axis, look);
  }
  option.textStyle = { fontFamily: look.font, color: look.colour("--ink") };
  option.tooltip = {
    ...option.tooltip, show: true, renderMode: "richText", confine: true, transitionDuration: 0, backgroundColor: look.colour("--paper"),
    borderColor: look.colour("--quiet"), borderWidth: 1, padding: 8, axisPointer: { animation: false, lineStyle: { color: look.colour("--quiet") } },
    textStyle: { color: look.colour("--ink"), fontSize: 13, lineHeight: 18, fontFamily: look.font },
  };
  ({ statuses: chartStatuses, soil: chartSoil, worth: chartWorth, relation: chartRelation })[spec.kind](option, spec, look, y, x);
  return option;
}
