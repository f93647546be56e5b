// Puts the fields in the field gate's order: nearest first. Browsers tell a position over TLS or on this
// machine only, and only when the person agrees; it does not leave the browser.
'use strict';
(() => {
  const root = document.body.dataset.root;
  const earthRadius = 6371000;
  let position = null;
  let shapes = null;
  let told = '';

  const part = () => document.getElementById('near');
  const tell = (text) => {
    told = text;
    part().querySelector('[role="status"]').textContent = text;
  };

  // Metres east and north of where the person stands.
  const planeAround = ({ latitude, longitude }) => {
    const perDegree = earthRadius * Math.PI / 180;
    const east = perDegree * Math.cos(latitude * Math.PI / 180);
    return ([lon, lat]) => [(lon - longitude) * east, (lat - latitude) * perDegree];
  };

  // From the origin to the line between two points.
  const toEdge = ([ax, ay], [bx, by]) => {
    const length = (bx - ax) ** 2 + (by - ay) ** 2;
    const along = length === 0 ? 0 : Math.min(1, Math.max(0, -(ax * (bx - ax) + ay * (by - ay)) / length));
    return Math.hypot(ax + along * (bx - ax), ay + along * (by - ay));
  };

  // Even and odd: how many edges lie to the east of the origin; holes are rings like any other.
  const crosses = ([ax, ay], [bx, by]) => (ay > 0) !== (by > 0) && ax - ay * (bx - ax) / (by - ay) > 0;

  const distance = (polygons, at) => {
    let nearest = Infinity;
    let inside = false;
    for (const ring of polygons.flat()) {
      const points = ring.map(at);
      for (let i = 1; i < points.length; i += 1) {
        nearest = Math.min(nearest, toEdge(points[i - 1], points[i]));
        if (crosses(points[i - 1], points[i])) inside = !inside;
      }
    }
    return inside ? 0 : nearest;
  };

  const away = (metres) => {
    const { here, away: words } = part().dataset;
    if (metres === 0) return here;
    return words.replace('{distance}', metres < 1000 ? `${Math.round(metres / 10) * 10} m` : `${(metres / 1000).toFixed(1)} km`);
  };

  const order = () => {
    if (!part() || !position || !shapes) return;
    const at = planeAround(position);
    const list = document.querySelector('.rows');
    const rows = [...list.children].map((row) => {
      const id = decodeURIComponent(row.querySelector('h3 a').getAttribute('href').replace(/^.*\//, ''));
      const shape = shapes.get(id);
      return { row, metres: shape ? distance(shape, at) : Infinity };
    });
    // A stable sort: those without a boundary stay by name, at the end.
    rows.sort((a, b) => (a.metres === b.metres ? 0 : a.metres - b.metres));
    for (const { row, metres } of rows) {
      if (metres < Infinity) {
        const mark = row.querySelector('.away') ?? document.createElement('b');
        mark.className = 'away';
        mark.textContent = away(metres);
        row.querySelector('.what').append(mark);
      }
      list.append(row);
    }
    list.closest('.group').querySelector('h2').textContent = part().querySelector('button').textContent;
    tell(part().dataset.done.replace('{accuracy}', Math.round(position.accuracy)));
  };

  const look = async () => {
    try {
      tell(part().dataset.looking);
      const found = await new Promise((done, failed) => {
        navigator.geolocation.getCurrentPosition(done, failed, { enableHighAccuracy: true, timeout: 20_000 });
      });
      const answer = await fetch(`${root}api/boundaries`);
      shapes = new Map((await answer.json()).features.map(({ id, geometry }) => [id, geometry.coordinates]));
      position = found.coords;
      order();
    } catch {
      tell(part().dataset.failed);
    }
  };

  const show = () => {
    if (!part() || !window.isSecureContext || !navigator.geolocation) return;
    part().hidden = false;
    if (told) tell(told); // the board came anew, without it
    order();
  };

  document.addEventListener('click', (event) => {
    if (event.target.closest('#near button')) look();
  });
  document.addEventListener('gley:shown', show);
  show();
})();
