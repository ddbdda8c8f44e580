// Waits until the files of the plant have another state, and shows the page again: at the step that
// was edited, or where it was.
(() => {
  const own = document.currentScript.dataset.now;
  const page = location.pathname.replace(/^\//, '') || 'index.html';
  const pause = (time) => new Promise((done) => setTimeout(done, time));
  const seen = () =>
    new Promise((done) => document.addEventListener('visibilitychange', done, { once: true }));

  function show(at) {
    // A browser goes back to where the page was; at an edited step it must not.
    history.scrollRestoration = at ? 'manual' : 'auto';
    if (at) history.replaceState(history.state, '', `#${at}`);
    location.reload();
  }

  async function wait() {
    for (;;) {
      // A page that nobody sees asks nothing: a browser has few connections to one server.
      while (document.hidden) await seen();
      try {
        const answer = await fetch(`/preview/changes?since=${own}&page=${encodeURIComponent(page)}`);
        const { now, at } = await answer.json();
        if (`${now}` !== own) return show(at);
      } catch {
        await pause(500);
      }
    }
  }

  wait();
})();
