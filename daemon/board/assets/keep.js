// Keeps the last page, so that a phone without a line still shows how things stood; the page itself
// says that it is old. Only what the browser opens is answered from here: what the page's script
// asks for must come from the daemon or fail.
'use strict';
const keep = 'gley';
const parts = new Set(['document', 'style', 'script', 'image']);

const put = async (request, answer) => {
  try {
    const kept = await caches.open(keep);
    await kept.put(request, answer);
  } catch {
    // A full disk: the answer is shown all the same.
  }
};

const fetchAndKeep = async (request) => {
  const answer = await fetch(request);
  if (answer.ok && !answer.redirected) await put(request, answer.clone());
  return answer;
};

const answerOrKept = async (request) => {
  try {
    return await fetchAndKeep(request);
  } catch (error) {
    const kept = await caches.open(keep);
    const answer = await kept.match(request) ?? await kept.match(request, { ignoreSearch: true });
    if (answer) return answer;
    throw error;
  }
};

addEventListener('install', () => skipWaiting());
addEventListener('activate', (event) => event.waitUntil(clients.claim()));
addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method === 'GET' && parts.has(request.destination)) {
    event.respondWith(answerOrKept(request));
  }
});
