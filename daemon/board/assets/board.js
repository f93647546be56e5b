// The page is whole without this script. It fetches the page again when the daemon says that
// something changed, keeps the ages true, and says when what is shown may be old. All ages come
// from the daemon's clock and the browser's count of time since: the browser's own clock may be
// wrong or stand still.
'use strict';
(() => {
  const second = 1000;
  const minute = 60 * second;
  const patience = 2 * minute;
  const root = document.body.dataset.root;
  const notice = document.getElementById('notice');
  const since = (moment) => performance.now() - moment;
  let shownAt = performance.now();
  let heardAt = shownAt;
  let heard = false;
  let lost = false;
  let busy = false;
  let again = false;
  let shown = null;

  const live = () => document.getElementById('live');

  const ageText = (seconds) => {
    const minutes = Math.floor(seconds / 60);
    if (minutes < 1) return 'just now';
    if (minutes < 60) return `${minutes} min ago`;
    const hours = Math.floor(minutes / 60);
    return hours < 48 ? `${hours} h ago` : `${Math.floor(hours / 24)} days ago`;
  };

  // How old a page from the browser's keep is, nobody knows: then only times stand.
  const showAges = () => {
    const more = since(shownAt) / second;
    for (const time of live().querySelectorAll('time[data-age]')) {
      const age = ` (${ageText(Number(time.dataset.age) + more)})`;
      const text = time.dataset.shown + (lost && !heard ? '' : age);
      if (time.textContent !== text) time.textContent = text;
    }
  };

  const showNotice = () => {
    const old = lost || since(heardAt) > patience;
    document.body.classList.toggle('old', old);
    notice.hidden = !old;
    if (!old) return;
    const asof = document.getElementById('asof');
    const text = (heard ? notice.dataset.lost : notice.dataset.kept)
      .replace('{time}', asof ? asof.dataset.day : 'that time')
      .replace('{age}', ageText(since(heardAt) / second));
    if (notice.textContent !== text) notice.textContent = text;
  };

  const showState = () => {
    showAges();
    showNotice();
  };

  const hear = () => {
    heardAt = performance.now();
    heard = true;
    lost = false;
  };

  const put = (fresh) => {
    const old = live();
    const inside = old.contains(document.activeElement);
    const focused = inside && (document.activeElement.id || document.activeElement.getAttribute('href'));
    const open = [...old.querySelectorAll('details[open][id]')].map((element) => element.id);
    old.replaceWith(document.adoptNode(fresh));
    shownAt = performance.now();
    for (const id of open) document.getElementById(id)?.setAttribute('open', '');
    const name = focused && CSS.escape(focused);
    if (name) document.querySelector(`#live [id="${name}"], #live [href="${name}"]`)?.focus({ preventScroll: true });
    document.dispatchEvent(new Event('gley:shown'));
  };

  // For keep.js; browsers have it only over TLS or from this machine.
  const keep = async (answer) => {
    try {
      const kept = await window.caches?.open('gley');
      await kept?.put(location.href, answer);
    } catch {
      // A full disk: the page shown is not harmed.
    }
  };

  const keepAssets = async () => {
    const assets = document.querySelectorAll('link[rel="stylesheet"], script[src]');
    const kept = await caches.open('gley');
    await kept.addAll([...assets].map((asset) => asset.href || asset.src));
    refresh();
  };

  const load = async () => {
    const answer = await fetch(location.href, { cache: 'no-cache', signal: AbortSignal.timeout(15 * second) });
    if (!answer.ok) throw new Error(`answer ${answer.status}`);
    keep(answer.clone());
    const text = await answer.text();
    hear();
    if (text === shown) return;
    const page = new DOMParser().parseFromString(text, 'text/html');
    const fresh = page.getElementById('live');
    if (!fresh) throw new Error('not a page of ours');
    // Another daemon has another script and style.
    if (page.body.dataset.version !== document.body.dataset.version) {
      await window.caches?.delete('gley');
      location.reload();
      return;
    }
    shown = text;
    document.title = page.title;
    put(fresh);
  };

  const refresh = async () => {
    if (busy) {
      again = true;
      return;
    }
    busy = true;
    try {
      await load();
    } catch {
      lost = true;
    }
    showState();
    busy = false;
    if (again) {
      again = false;
      setTimeout(refresh, second);
    }
  };

  let events = null;
  const listen = () => {
    events = new EventSource(`${root}events`);
    events.addEventListener('board', (event) => {
      const revision = String(JSON.parse(event.data).revision);
      if (lost || revision !== live().dataset.revision) {
        refresh();
        return;
      }
      hear();
      showState();
    });
    events.addEventListener('error', () => {
      if (!busy) refresh();
    });
  };

  // At the field gate a name is looked for: a phone begins with the fields from A to Z.
  const isBoard = live().dataset.page === 'board';
  if (isBoard && !location.search && matchMedia('(max-width: 40rem)').matches) {
    location.replace('?by=name');
    return;
  }

  document.addEventListener('gley:told', refresh);
  listen();
  setInterval(() => {
    if (events.readyState === EventSource.CLOSED) listen();
    refresh();
  }, minute);
  setInterval(showState, 10 * second);
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden) refresh();
  });
  if ('serviceWorker' in navigator) {
    navigator.serviceWorker.register(`${root}keep.js`).then(keepAssets).catch(() => {});
  }
})();
