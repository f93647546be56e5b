// Says that a person has seen an alert. Name and token are typed once and kept in this browser alone,
// for this farm alone: another may stand on the same host under another name.
'use strict';
(() => {
  const dialog = document.getElementById('seen-form');
  if (!dialog) return;
  const root = document.body.dataset.root;
  const farm = new URL(root || './', location.href).pathname;
  const form = dialog.querySelector('form');
  const { by, token } = form.elements;
  const part = (name) => document.getElementById(`seen-${name}`);
  const told = part('told');
  let alert = null;
  let busy = false;

  // A browser that keeps nothing asks each time.
  const kept = (name) => {
    try {
      return localStorage.getItem(`gley ${farm} ${name}`) ?? '';
    } catch {
      return '';
    }
  };
  const keep = (name, text) => {
    try {
      if (text) localStorage.setItem(`gley ${farm} ${name}`, text);
      else localStorage.removeItem(`gley ${farm} ${name}`);
    } catch {
      // See above.
    }
  };

  const ask = () => {
    by.value = kept('name');
    token.value = kept('token');
    dialog.querySelector('.token').hidden = token.value !== '';
    part('forget').hidden = by.value === '' && token.value === '';
  };

  const open = (button) => {
    alert = button.dataset.alert;
    part('what').textContent = document.getElementById(`alert-${alert}`)?.textContent ?? '';
    told.textContent = '';
    ask();
    dialog.showModal();
    if (by.value && token.value) form.querySelector('[type="submit"]').focus();
  };

  const wrongToken = () => {
    keep('token', '');
    token.value = '';
    dialog.querySelector('.token').hidden = false;
    told.textContent = dialog.dataset.wrong;
    token.focus();
  };

  const headersWith = (secret) => {
    try {
      return new Headers({ 'Content-Type': 'application/json', Authorization: `Bearer ${secret}` });
    } catch {
      return null; // letters that no header can carry
    }
  };

  const send = async (name, secret) => {
    const headers = headersWith(secret);
    if (!headers) return { status: 401 };
    return fetch(`${root}api/alert/${encodeURIComponent(alert)}/seen`, {
      method: 'POST',
      headers,
      body: JSON.stringify({ by: name }),
      signal: AbortSignal.timeout(15_000),
    });
  };

  const refused = async (answer) => {
    const why = await answer.json().then(({ error }) => error).catch(() => `answer ${answer.status}`);
    told.textContent = dialog.dataset.refused.replace('{why}', why);
  };

  const done = (name, secret) => {
    keep('name', name);
    keep('token', secret);
    dialog.close();
    document.getElementById(`alert-${alert}`)?.focus({ preventScroll: true });
    document.dispatchEvent(new Event('gley:told'));
  };

  const tell = async (name, secret) => {
    const answer = await send(name, secret).catch(() => null);
    if (!answer) told.textContent = dialog.dataset.lost;
    else if (answer.status === 401) wrongToken();
    else if (!answer.ok) await refused(answer);
    else done(name, secret);
  };

  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    if (busy) return;
    busy = true;
    told.textContent = '';
    await tell(by.value.trim(), token.value.trim());
    busy = false;
  });
  part('back').addEventListener('click', () => dialog.close());
  part('forget').addEventListener('click', () => {
    keep('name', '');
    keep('token', '');
    ask();
    by.focus();
  });
  document.addEventListener('click', (event) => {
    const button = event.target.closest?.('.see');
    if (button) open(button);
  });
  document.body.classList.add('scripted');
})();
