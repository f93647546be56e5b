// Draws the charts of a field's pages, each with its numbers as a table beside it. The pages are
// whole without it.
'use strict';
(() => {
  const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
  const figures = [...document.querySelectorAll('figure[data-chart]')];
  const section = document.querySelector('.charts');
  if (!figures.length || !section || typeof Chart === 'undefined') return;

  const ranges = [[91, '3 months'], [365, '12 months'], [0, 'All']];
  let daysShown = 91;
  let data = new Map();
  const charts = new Map();

  const shortDate = (date) => `${Number(date.slice(8))} ${monthNames[Number(date.slice(5, 7)) - 1]}`;
  const longDate = (date) => `${shortDate(date)} ${date.slice(0, 4)}`;
  const mm = (value) => (value === null || value === undefined ? '' : String(Math.round(value * 10) / 10));
  const tenths = (chance) =>
    chance >= 0.95 ? 'over 9 in 10' : chance < 0.05 ? 'under 1 in 10' : `${Math.round(chance * 10)} in 10`;

  const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
  const theme = () => ({
    ink: colour('--ink'), faint: colour('--faint'), line: colour('--line'), paper: colour('--paper'),
    soil: colour('--soil'), soilEdge: colour('--soil-edge'), water: colour('--water'),
    surplus: colour('--surplus'), rain: colour('--rain'),
  });
  const clear = (hex, alpha) => {
    const part = (at) => parseInt(hex.slice(at, at + 2), 16);
    return `rgba(${part(1)}, ${part(3)}, ${part(5)}, ${alpha})`;
  };
  /** Stripes, so that a surface is known without its colour. */
  const stripes = (ink, paper) => {
    const tile = document.createElement('canvas');
    tile.width = tile.height = 8;
    const pen = tile.getContext('2d');
    pen.fillStyle = paper;
    pen.fillRect(0, 0, 8, 8);
    pen.strokeStyle = ink;
    pen.lineWidth = 2;
    pen.beginPath();
    for (const shift of [-8, 0, 8]) {
      pen.moveTo(shift, 8);
      pen.lineTo(shift + 8, 0);
    }
    pen.stroke();
    return pen.createPattern(tile, 'repeat');
  };

  const options = (colours, labels, more = {}) => {
    const legend = { labels: { color: colours.ink, usePointStyle: true, pointStyleWidth: 40 } };
    const x = {
      type: 'category',
      grid: { color: colours.line, drawOnChartArea: false },
      ticks: {
        color: colours.ink, maxRotation: 0, autoSkip: true, autoSkipPadding: 18,
        callback: (value) => (more.xText ? more.xText(value) : shortDate(labels[value])),
      },
      ...more.x,
    };
    return {
      animation: false, responsive: true, maintainAspectRatio: false, normalized: true,
      interaction: { mode: 'index', intersect: false },
      elements: { point: { radius: 0, hitRadius: 6 }, line: { borderWidth: 2 } },
      plugins: {
        legend,
        tooltip: {
          callbacks: { title: (items) => (more.xText ? more.xText(items[0].dataIndex) : longDate(labels[items[0].dataIndex])), ...more.tooltip },
          filter: more.filter,
        },
      },
      scales: { x, y: { grid: { color: colours.line }, ticks: { color: colours.ink, ...more.yTicks },
        title: { display: true, text: more.yTitle, color: colours.ink }, ...more.y } },
    };
  };

  /** The days shown of the record, and the coming ones after today. */
  const daysOf = (record, ahead) => {
    const first = daysShown ? Math.max(0, record.date.length - daysShown) : 0;
    const past = record.date.slice(first);
    const last = past[past.length - 1];
    const from = ahead ? ahead.date.findIndex((date) => date > last) : -1;
    const coming = from < 0 ? [] : ahead.date.slice(from);
    return { first, past, from, coming, labels: past.concat(coming) };
  };
  const pad = (count) => new Array(count).fill(null);

  // The soil in section, through time: each layer a band from its wilting point to saturation.
  const soil = (record, ahead, colours) => {
    const { first, past } = daysOf(record, null);
    const datasets = [];
    const faces = [0];
    let top = 0;
    record.layers.forEach((layer, index) => {
      const bottom = top + layer.thickness_mm;
      faces.push(bottom);
      const room = layer.saturation - layer.wilting_point;
      const height = (theta) => {
        const share = room > 0 ? Math.min(1, Math.max(0, (theta - layer.wilting_point) / room)) : 0;
        return bottom - share * layer.thickness_mm;
      };
      const water = layer.theta.slice(first).map(height);
      const depth = `${top} to ${bottom} mm`;
      const at = datasets.length;
      datasets.push(
        { label: `water ${depth}`, data: water, borderColor: colours.water, borderWidth: 1,
          backgroundColor: colours.water, fill: { value: bottom }, pointStyle: false, own: { layer, depth } },
        { label: `surplus ${depth}`, data: water, borderWidth: 0, pointStyle: false,
          fill: { target: at + 2, above: stripes(colours.surplus, colours.water), below: 'transparent' } },
        { label: `field capacity ${depth}`, data: past.map(() => height(layer.field_capacity)), borderColor: colours.ink,
          borderDash: [5, 4], borderWidth: 1.5, fill: false, pointStyle: false },
      );
      top = bottom;
    });
    const ground = {
      id: 'ground',
      beforeDatasetsDraw: ({ ctx, chartArea }) => {
        ctx.save();
        ctx.fillStyle = colours.soil;
        ctx.fillRect(chartArea.left, chartArea.top, chartArea.width, chartArea.height);
        ctx.restore();
      },
      afterDatasetsDraw: ({ ctx, chartArea, scales }) => {
        ctx.save();
        ctx.strokeStyle = colours.ink;
        faces.forEach((depth, index) => {
          const y = scales.y.getPixelForValue(depth);
          ctx.lineWidth = index === 0 ? 3 : 1.5;
          ctx.beginPath();
          ctx.moveTo(chartArea.left, y);
          ctx.lineTo(chartArea.right, y);
          ctx.stroke();
        });
        ctx.restore();
      },
    };
    const set = options(colours, past, {
      yTitle: 'depth, mm',
      y: { reverse: true, min: 0, max: top,
        afterBuildTicks: (axis) => { axis.ticks = faces.map((value) => ({ value })); } },
      yTicks: { autoSkip: false },
      filter: (item) => item.dataset.own !== undefined,
      tooltip: { label: (item) => {
        const { layer, depth } = item.dataset.own;
        const theta = layer.theta[first + item.dataIndex];
        return `${depth}: ${Math.round(theta * 100)} % water, field capacity ${Math.round(layer.field_capacity * 100)} %`;
      } },
    });
    set.plugins.legend.display = false;
    const heads = ['Day', ...record.layers.map((layer, i) => `${faces[i]} to ${faces[i + 1]} mm, % water`)];
    const rows = past.map((date, i) => [longDate(date),
      ...record.layers.map((layer) => String(Math.round(layer.theta[first + i] * 1000) / 10))]);
    const marks = record.layers.map((layer, i) =>
      `${faces[i]} to ${faces[i + 1]} mm: wilting point ${Math.round(layer.wilting_point * 100)} %, ` +
      `field capacity ${Math.round(layer.field_capacity * 100)} %, saturation ${Math.round(layer.saturation * 100)} %`);
    return { type: 'line', data: { labels: past, datasets }, options: set, plugins: [ground], heads, rows, note: marks.join('; ') };
  };

  const balance = (record, ahead, colours) => {
    const { first, past, from, coming, labels } = daysOf(record, ahead);
    const deficit = record.depletion_mm.slice(first).map((value) => -value);
    const surplus = record.surplus_mm.slice(first);
    const running = record.drains.slice(first).map((word) => (word === 'running' ? 0 : null));
    const lead = pad(past.length - 1);
    const join = (name, sign) => (part) => {
      if (!coming.length) return [];
      const now = (sign < 0 ? record.depletion_mm : record.surplus_mm).at(-1) * sign;
      return lead.concat([now], ahead[name][part].slice(from).map((value) => value * sign));
    };
    const missing = join('depletion_mm', -1);
    const standing = join('surplus_mm', 1);
    const datasets = [
      { label: 'missing to field capacity', data: deficit, borderColor: colours.soilEdge, backgroundColor: clear(colours.soil, 0.7), fill: 'origin', pointStyle: 'rect' },
      { label: 'surplus', data: surplus, borderColor: colours.surplus, backgroundColor: stripes(colours.surplus, colours.water), fill: 'origin', pointStyle: 'rect' },
      { label: 'draining', data: running, showLine: false, pointRadius: 4, pointStyle: 'triangle', rotation: 180,
        pointBackgroundColor: colours.ink, borderColor: colours.ink },
    ];
    if (coming.length) datasets.push(
      { label: 'forecast, middle: missing', data: missing('middle'), borderColor: colours.soilEdge, borderDash: [6, 4], fill: false, pointStyle: 'line' },
      { label: 'one in ten drier', data: missing('high'), borderColor: colours.faint, borderWidth: 1, fill: false, pointStyle: 'line' },
      { label: 'one in ten wetter', data: missing('low'), borderColor: colours.faint, borderWidth: 1, backgroundColor: clear(colours.soil, 0.35), fill: '-1', pointStyle: 'line' },
      { label: 'forecast, one in ten: surplus over', data: standing('high'), borderColor: colours.surplus, borderDash: [6, 4], fill: false, pointStyle: 'line' },
    );
    const heads = ['Day', 'Missing to field capacity, mm', 'Surplus, mm', 'Drains'];
    const rows = past.map((date, i) => [longDate(date), mm(record.depletion_mm[first + i]), mm(surplus[i]), record.drains[first + i]])
      .concat(coming.map((date, i) => {
        const span = (name) => `${mm(ahead[name].middle[from + i])} (${mm(ahead[name].low[from + i])} to ${mm(ahead[name].high[from + i])})`;
        return [longDate(date), span('depletion_mm'), span('surplus_mm'), tenths(ahead.drains_running[from + i])];
      }));
    return { type: 'line', data: { labels, datasets }, heads, rows,
      options: options(colours, labels, { yTitle: 'mm from field capacity',
        tooltip: { label: (item) => (item.dataset.label === 'draining' ? 'draining'
          : `${item.dataset.label}: ${mm(Math.abs(item.parsed.y))} mm`) } }) };
  };

  const weather = (record, ahead, colours) => {
    const { first, past, from, coming, labels } = daysOf(record, ahead);
    const part = (name) => record[name].slice(first);
    const datasets = [
      { type: 'bar', label: 'rain', data: part('rain_mm').concat(coming.map(() => null)), backgroundColor: colours.rain, stack: 'in', pointStyle: 'rect' },
      { type: 'bar', label: 'irrigation', data: part('irrigation_mm'), backgroundColor: stripes(colours.rain, colours.paper), stack: 'in', pointStyle: 'rect' },
      { type: 'line', label: 'used by crop and air', data: part('et_mm'), borderColor: colours.soilEdge, pointStyle: 'line' },
      { type: 'line', label: 'demand (ET0)', data: part('et0_mm'), borderColor: colours.faint, borderDash: [2, 3], borderWidth: 1, pointStyle: 'line' },
      { type: 'line', label: 'drained', data: part('drainage_mm'), borderColor: colours.ink, borderDash: [6, 3], pointStyle: 'line' },
    ];
    if (!part('irrigation_mm').some((value) => value > 0)) datasets.splice(1, 1);
    if (coming.length) datasets.push(
      { type: 'bar', label: 'rain forecast, middle', data: pad(past.length).concat(ahead.rain_mm.middle.slice(from)), backgroundColor: clear(colours.rain, 0.5), stack: 'in', pointStyle: 'rect' },
      { type: 'line', label: 'one in ten wetter', data: pad(past.length).concat(ahead.rain_mm.high.slice(from)), borderColor: colours.rain,
        showLine: false, pointStyle: 'dash', pointRadius: 7, pointBorderWidth: 3 },
    );
    const heads = ['Day', 'Rain, mm', 'Irrigation, mm', 'Used, mm', 'ET0, mm', 'Drained, mm', 'Ran off, mm'];
    const rows = past.map((date, i) => [longDate(date), ...['rain_mm', 'irrigation_mm', 'et_mm', 'et0_mm', 'drainage_mm', 'runoff_mm']
      .map((name) => mm(record[name][first + i]))]).concat(coming.map((date, i) => [longDate(date),
      `${mm(ahead.rain_mm.middle[from + i])} (${mm(ahead.rain_mm.low[from + i])} to ${mm(ahead.rain_mm.high[from + i])})`, '', '', '', '', '']));
    return { type: 'bar', data: { labels, datasets }, heads, rows,
      options: options(colours, labels, { yTitle: 'mm a day', y: { min: 0 },
        tooltip: { label: (item) => `${item.dataset.label}: ${mm(item.parsed.y)} mm` } }) };
  };

  const machines = (record, ahead, colours) => {
    const { first, past, from, coming, labels } = daysOf(record, ahead);
    const height = { carries: 0.9, 'with care': 0.45 };
    const count = record.machines.length;
    const datasets = record.machines.map((machine, i) => {
      const base = count - 1 - i;
      const bars = machine.verdict.slice(first).map((word) => [base, base + (height[word] || 0)]);
      const chances = coming.length ? ahead.machines[i].carried.slice(from) : [];
      return { label: machine.name, own: { machine, chances }, grouped: false, categoryPercentage: 1, barPercentage: 1,
        data: bars.concat(chances.map((chance) => [base, base + 0.9 * chance])),
        backgroundColor: labels.map((date, d) => (d < past.length
          ? (machine.verdict[first + d] === 'with care' ? stripes(colours.ink, colours.soil) : colours.ink) : clear(colours.ink, 0.4))) };
    });
    const heads = ['Day', ...record.machines.map((machine) => machine.name)];
    const rows = past.map((date, d) => [longDate(date), ...record.machines.map((machine) => machine.verdict[first + d])])
      .concat(coming.map((date, d) => [longDate(date), ...ahead.machines.map((machine) => `carried, ${tenths(machine.carried[from + d])}`)]));
    const set = options(colours, labels, {
      y: { min: 0, max: count, afterBuildTicks: (axis) => { axis.ticks = record.machines.map((machine, i) => ({ value: i + 0.45 })); } },
      yTicks: { autoSkip: false, callback: (value) => record.machines[count - 1 - Math.floor(value)]?.name },
      tooltip: { label: (item) => {
        const { machine, chances } = item.dataset.own;
        const d = item.dataIndex - past.length;
        return d < 0 ? `${machine.name}: ${machine.verdict[first + item.dataIndex]}` : `${machine.name}: carried, ${tenths(chances[d])}`;
      } },
    });
    set.plugins.legend.display = false;
    set.scales.y.title.display = false;
    set.scales.y.grid.display = false;
    return { type: 'bar', data: { labels, datasets }, options: set, heads, rows };
  };

  // One line a harvest year, from its first day.
  const seasons = (name, unit) => (view, ahead, colours) => {
    const begin = view.season_begins === '1 April' ? 3 : 9;
    const labels = Array.from({ length: 366 }, (_, day) => day);
    // The season that ends in 2024 has a leap day, so that its every day has a name.
    const dayName = (day) => {
      const date = new Date(Date.UTC(2023, begin, 1 + Number(day)));
      return `${date.getUTCDate()} ${monthNames[date.getUTCMonth()]}`;
    };
    const inks = [colours.rain, colours.ink, colours.soilEdge, colours.faint];
    const dashes = [[], [8, 4], [2, 3], [10, 3, 2, 3]];
    const datasets = view.seasons.map((season, i) => ({
      label: String(season.harvest_year), data: pad(season.first_day).concat(season[name]),
      borderColor: inks[i % inks.length], borderDash: dashes[i % dashes.length], borderWidth: i === 0 ? 4 : 2, pointStyle: 'line',
    }));
    const months = [0, 31, 61, 92, 123, 152, 183, 213, 244, 274, 305, 335].map((day) => Math.min(day, 365));
    const heads = ['By', ...view.seasons.map((season) => String(season.harvest_year))];
    const rows = [...months.slice(1), 365].map((day) => [dayName(day), ...view.seasons.map((season) => {
      const at = day - season.first_day;
      return at >= 0 && at < season[name].length ? `${Math.round(season[name][at])} ${unit}` : '';
    })]);
    return { type: 'line', data: { labels, datasets }, heads, rows,
      options: options(colours, labels, { yTitle: unit, xText: dayName, y: { min: 0 },
        tooltip: { label: (item) => `${item.dataset.label}: ${Math.round(item.parsed.y)} ${unit}` } }) };
  };

  const kinds = { soil, balance, weather, machines,
    'season-rain': seasons('rain_sum_mm', 'mm'), 'season-drainage': seasons('drainage_sum_mm', 'mm') };

  const element = (name, text, parent) => {
    const made = document.createElement(name);
    if (text !== undefined) made.textContent = text;
    if (parent) parent.append(made);
    return made;
  };

  /** The chart's numbers, made only when somebody opens them. */
  const fillTable = (details, drawn) => {
    details.querySelector('.scroll')?.remove();
    const box = element('div', undefined, details);
    box.className = 'scroll';
    box.tabIndex = 0;
    box.setAttribute('role', 'region');
    box.setAttribute('aria-label', details.firstChild.textContent);
    if (drawn.note) element('p', drawn.note, box);
    const table = element('table', undefined, box);
    table.className = 'days';
    const head = element('tr', undefined, element('thead', undefined, table));
    for (const text of drawn.heads) element('th', text, head).scope = 'col';
    const body = element('tbody', undefined, table);
    for (const row of [...drawn.rows].reverse()) {
      const line = element('tr', undefined, body);
      row.forEach((text, i) => { element(i ? 'td' : 'th', text, line); });
      line.firstChild.scope = 'row';
    }
  };

  const prepare = (figure) => {
    const box = element('div', undefined, figure);
    box.className = 'canvas';
    const canvas = element('canvas', undefined, box);
    canvas.setAttribute('role', 'img');
    const title = figure.querySelector('h3').textContent;
    canvas.setAttribute('aria-label', `${title}. The same numbers stand in the table below.`);
    const tooEarly = element('p', 'There is one day so far, and lines begin with the second. The table has its numbers.', figure);
    const details = element('details', undefined, figure);
    element('summary', `${title}, as a table`, details);
    return { canvas, details, tooEarly };
  };

  const draw = (figure) => {
    const numbers = data.get(figure.dataset.source);
    const kind = kinds[figure.dataset.chart];
    if (!numbers || !kind) return;
    let chart = charts.get(figure);
    if (!chart) {
      chart = prepare(figure);
      charts.set(figure, chart);
      chart.details.addEventListener('toggle', () => { if (chart.details.open) fillTable(chart.details, chart.drawn); });
    }
    chart.chart?.destroy();
    chart.drawn = kind(numbers, data.get(section.dataset.ahead), theme());
    const { type, options: set, plugins } = chart.drawn;
    // Between points a line and its area are drawn, so that one day alone would stand there as dry ground.
    const oneDay = type === 'line' && chart.drawn.data.labels.length < 2;
    chart.canvas.parentElement.hidden = oneDay;
    chart.tooEarly.hidden = !oneDay;
    chart.chart = new Chart(chart.canvas, { type, data: chart.drawn.data, options: set, plugins });
    if (chart.details.open) fillTable(chart.details, chart.drawn);
  };
  const drawAll = () => figures.forEach(draw);

  const message = element('p');
  message.setAttribute('role', 'status');
  if (section.querySelector('h2')) section.querySelector('h2').after(message);
  else section.prepend(message);

  /** Years of days are fetched only when they are asked for. */
  const since = () => {
    if (!daysShown) return '';
    const year = 366 * 24 * 3600 * 1000;
    return `?from=${new Date(Date.now() - year).toISOString().slice(0, 10)}`;
  };

  const load = async () => {
    const sources = new Set(figures.map((figure) => figure.dataset.source));
    if (section.dataset.ahead) sources.add(section.dataset.ahead);
    try {
      const answers = await Promise.all([...sources].map(async (source) => {
        const answer = await fetch(source.endsWith('/record') ? source + since() : source, { cache: 'no-cache', signal: AbortSignal.timeout(15000) });
        if (!answer.ok) throw new Error(`answer ${answer.status}`);
        return [source, await answer.json()];
      }));
      data = new Map(answers);
      message.textContent = '';
    } catch {
      message.textContent = charts.size ? 'The charts could not be brought up to date.' : 'The charts could not be loaded.';
      return;
    }
    drawAll();
  };

  const addRanges = () => {
    const box = element('fieldset');
    box.className = 'choice';
    element('legend', 'Days shown', box);
    for (const [days, text] of ranges) {
      const label = element('label', undefined, box);
      const input = element('input', undefined, label);
      input.type = 'radio';
      input.name = 'range';
      input.checked = days === daysShown;
      label.append(` ${text}`);
      input.addEventListener('change', () => {
        daysShown = days;
        if (days) drawAll();
        else load();
      });
    }
    message.after(box);
  };
  if (section.dataset.ahead) addRanges();

  Chart.defaults.font.family = getComputedStyle(document.body).fontFamily;
  Chart.defaults.font.size = Math.max(13, parseFloat(getComputedStyle(document.body).fontSize) * 0.85);
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', drawAll);

  // The board's script puts a fresh page in place when something changed; the charts follow it.
  let due = null;
  new MutationObserver(() => {
    if (due) return;
    due = setTimeout(() => {
      due = null;
      load();
    }, 5000);
  }).observe(document.body, { childList: true });
  load();
})();
