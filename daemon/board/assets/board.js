// The page is whole without this script. It only fetches the page again when the daemon says
// that something changed, and says when what is shown may be old.
'use strict';
(() => {
  const minute = 60000;
  const root = document.body.dataset.root;
  const notice = document.getElementById('notice');
  let lastAnswer = Date.now();
  let lost = false;
  let busy = false;
  let again = false;
  let shown = null;

  const live = () => document.getElementById('live');

  const ageText = (ms) => {
    const minutes = Math.floor(ms / minute);
    if (minutes < 1) return 'just now';
    if (minutes < 60) return `${minutes} min ago`;
    const hours = Math.floor(minutes / 60);
    return hours < 48 ? `${hours} h ago` : `${Math.floor(hours / 24)} days ago`;
  };

  const showAges = () => {
    for (const time of document.querySelectorAll('time[data-age]')) {
      const age = Date.now() - Date.parse(time.dateTime);
      if (!time.dataset.text) time.dataset.text = time.textContent;
      // A clock ahead of the daemon's says nothing about age.
      time.textContent = age < 0 ? time.dataset.text : `${time.dataset.text} (${ageText(age)})`;
    }
  };

  const showNotice = () => {
    const silence = Date.now() - lastAnswer;
    const old = lost || silence > 2 * minute;
    notice.hidden = !old;
    if (!old) return;
    const asof = document.getElementById('asof');
    const text = `No connection to the daemon; its last answer came ${ageText(silence)}. ` +
      `This is how things stood at ${asof ? asof.textContent : 'that time'}.`;
    if (notice.textContent !== text) notice.textContent = text;
  };

  const put = (fresh) => {
    const old = live();
    const focused = old.contains(document.activeElement) && document.activeElement.getAttribute('href');
    const open = [...old.querySelectorAll('details[open][id]')].map((element) => element.id);
    old.replaceWith(document.adoptNode(fresh));
    for (const id of open) document.getElementById(id)?.setAttribute('open', '');
    if (focused) document.querySelector(`a[href="${CSS.escape(focused)}"]`)?.focus({ preventScroll: true });
  };

  const load = async () => {
    const answer = await fetch(location.href, { cache: 'no-cache', signal: AbortSignal.timeout(15000) });
    if (!answer.ok) throw new Error(`answer ${answer.status}`);
    const text = await answer.text();
    lastAnswer = Date.now();
    lost = false;
    if (text === shown) return;
    const page = new DOMParser().parseFromString(text, 'text/html');
    const fresh = page.getElementById('live');
    if (!fresh) throw new Error('not a page of ours');
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
    showAges();
    showNotice();
    busy = false;
    if (again) {
      again = false;
      setTimeout(refresh, 1000);
    }
  };

  let events = null;
  const listen = () => {
    events = new EventSource(`${root}events`);
    events.addEventListener('board', (event) => {
      lastAnswer = Date.now();
      const revision = String(JSON.parse(event.data).revision);
      if (lost || revision !== live().dataset.revision) refresh();
    });
    events.addEventListener('error', () => {
      if (!busy) refresh();
    });
  };

  listen();
  showAges();
  setInterval(() => {
    if (events.readyState === EventSource.CLOSED) listen();
    refresh();
  }, minute);
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden) refresh();
  });
})();
